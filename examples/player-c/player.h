/* Carries out a list of switchings on a small board. What it does, and why: docs/carrying-out-a-timetable.md
 *
 * C99 without a heap, without floating point, without a global variable. All state is in two structs of the caller:
 *
 *   struct player_list   reads a list, a byte at a time, and knows whether it is whole
 *   struct player        says at each moment which output is to be opened or closed
 *
 * The board brings a source of the list that can be read twice, a clock, and a function that moves a pin. */
#ifndef PLAYER_H
#define PLAYER_H

#include <stdbool.h>
#include <stdint.h>

/* How many outputs the board has at most. Each takes about 30 bytes. */
#ifndef PLAYER_OUTPUTS
#define PLAYER_OUTPUTS 16
#endif

/* The longest line that can be held, line end included. The closing row needs 296, and more where the version of the time-zone data has more than 5 letters;
   a row needs 70 and the name of the controller. */
#ifndef PLAYER_LINE
#define PLAYER_LINE 320
#endif
#if PLAYER_LINE < 296
#error "PLAYER_LINE has no room for a closing row"
#endif

#define PLAYER_PULSE_TEXT 10        /* letters of a pulse such as 40.5 */
#define PLAYER_HASH_TEXT 12         /* letters of the hash that are logged */
#define PLAYER_CLOCK_STEP_S 2u      /* a clock that is put right by more than this counts as a restart */
#define PLAYER_CLOCK_UNSET 1577836800u      /* 2020: a clock that stands before it was never set */
#define PLAYER_LONGEST_WAIT_MS 60000u       /* so that a clock and a counter that drift apart are not taken for a clock put right */

/* A moment, in UTC. Seconds since 1970 fit until 2106. */
struct player_time {
    uint32_t s;
    uint16_t ms;
};

/* What a list says about an output on each row that names it. */
struct player_kind {
    uint32_t max_on_s;
    char pulse_ms[PLAYER_PULSE_TEXT + 1];   /* as it is written, for it may have decimals; empty: the device uses its own */
    bool is_named;
    bool is_latching;
};

struct player_row {
    struct player_time due;
    uint32_t opening;
    uint16_t output;
    bool is_open;
};

struct player_sha256 {
    uint32_t state[8];
    uint32_t block[16];
    uint32_t bytes;
};

/* Why a list is refused. The order is that in which the reasons are looked at. */
enum player_fault {
    PLAYER_WHOLE,
    PLAYER_NO_HEADER,           /* the first line is not that of a list of switchings */
    PLAYER_LONG_LINE,           /* a line is longer than PLAYER_LINE */
    PLAYER_CUT_IN_LINE,         /* the last line does not end */
    PLAYER_CUT_OFF,             /* the closing row is missing */
    PLAYER_ROW_COUNT,           /* another number of rows than the closing row says */
    PLAYER_ALTERED,             /* another hash than the closing row says */
    PLAYER_NO_TEXT,             /* control characters */
    /* These are about one line. */
    PLAYER_AFTER_END,
    PLAYER_LINE_END,
    PLAYER_FIELDS,
    PLAYER_BOUNDS,
    PLAYER_NUMBERS,
    PLAYER_ORDER,
    PLAYER_NAME,
    PLAYER_CONTROLLER,
    PLAYER_OUTPUT,
    PLAYER_DO,
    PLAYER_POLARITY,
    PLAYER_PULSE,
    PLAYER_OPENING,
    PLAYER_KIND
};

/* A list that is being read. Nothing in it is for the caller to write; what may be read is said. */
struct player_list {
    const char *controller;     /* the device's own name */
    uint16_t outputs;           /* how many it has */

    uint16_t most_output;       /* once whole: the highest output that is named */
    uint32_t begins, ends;      /* once whole: FROM and UNTIL */
    uint8_t digest[32];         /* once whole: its hash */
    uint32_t fault_line;        /* once refused for a line: which */
    struct player_kind kinds[PLAYER_OUTPUTS];

    struct player_sha256 sha;
    struct player_row row;
    uint32_t lines;
    uint16_t length;
    enum player_fault fault;
    bool line_is_over, row_is_closing, has_ended, has_no_text, is_second_reading;
    char line[PLAYER_LINE];
};

/* Where the list comes from: a file, a memory chip, a line to a computer. */
struct player_source {
    int16_t (*next)(void *place);   /* the next byte, or -1 at the end and where it cannot be read */
    bool (*rewind)(void *place);    /* back to the first byte; false where that fails */
    void *place;
};

enum player_do { PLAYER_OPEN, PLAYER_CLOSE, PLAYER_BOOT, PLAYER_RESET, PLAYER_REST };

enum player_why {
    PLAYER_NONE,
    PLAYER_BY_LIST,
    PLAYER_POWER_UP,
    PLAYER_JOIN,
    PLAYER_GUARD,
    PLAYER_CLOCK,               /* the clock was put right */
    PLAYER_NEW_LIST,
    /* Why it rests. */
    PLAYER_NOT_BEGUN,
    PLAYER_ENDED,
    PLAYER_NO_CLOCK,
    PLAYER_NO_LIST,
    PLAYER_LIST_LOST            /* the second reading gave something else than the first */
};

/* Something to do: a pin to move, a line to log. */
struct player_event {
    struct player_time at;
    const struct player_list *list;     /* 0: none */
    const struct player_kind *kind;     /* of the output; 0: the list does not name it */
    uint32_t opening;                   /* 0: none */
    uint32_t most_on_s;                 /* on open: after so many seconds a timer of the board's own has to close it */
    uint16_t output;                    /* 0: concerns the whole device */
    enum player_do what;
    enum player_why why;
};

struct player_output {
    struct player_time guard;   /* when it is closed whatever the list says */
    uint32_t opening;
    uint32_t turn;              /* counts openings, for the order in which they are joined */
    bool is_open;
};

enum player_state { PLAYER_BOOTING, PLAYER_CLOSING, PLAYER_CATCHING_UP, PLAYER_JOINING, PLAYER_PLAYING, PLAYER_RESTING };

struct player {
    void (*carry_out)(void *board, const struct player_event *event);   /* the caller's: moves a pin, writes the log */
    void *board;                                                        /* the caller's */
    uint16_t pump;                                                      /* the caller's: is closed before all others; 0: none */

    struct player_list *list;
    struct player_source source;
    struct player_row row;
    struct player_time now;
    uint32_t ticks, spaced_ticks, turns, joined_turn;
    uint16_t outputs, stagger_ms, closed;
    enum player_state state;
    enum player_why why_closing, why_resting;
    bool has_row, list_is_over, is_spaced, has_joined, is_closed;
    struct player_output output[PLAYER_OUTPUTS];
};

/* Begins to read a list, once before it is carried out: give every byte, then ask for the verdict.
 * controller: the device's own name. outputs: how many it has, at most PLAYER_OUTPUTS. */
void player_list_begin(struct player_list *list, const char *controller, uint16_t outputs);
void player_list_byte(struct player_list *list, uint8_t byte);
enum player_fault player_list_end(struct player_list *list);

/* Power comes on. The calls of player_poll that follow close every output, and then rest for want of a list.
 * stagger_ms: the least time between two pulses, and between two openings, that the board's supply needs. */
void player_power_up(struct player *player, uint16_t outputs, uint16_t stagger_ms);

/* Takes up a list that player_list_end found whole, in place of any other, as after a restart. */
void player_take_up(struct player *player, struct player_list *list, struct player_source source);

/* Does one thing at most. Returns after how many milliseconds to call it again at the latest; 0: at once.
 * now: the clock, with now.s 0 while it is not set. ticks: a counter of milliseconds that nobody sets; it may wrap. */
uint32_t player_poll(struct player *player, struct player_time now, uint32_t ticks);

/* Whether the list is over and everything has been closed. */
bool player_is_over(const struct player *player);

/* The length of a pulse in whole milliseconds, rounded up; 0 where the list does not state it. */
uint16_t player_pulse_ms(const struct player_kind *kind);

/* Writes an event as a line of the log, without the line's end. */
void player_log_header(void (*put)(void *place, char letter), void *place);
void player_log(const struct player_event *event, void (*put)(void *place, char letter), void *place);

#endif
