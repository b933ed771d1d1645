/* Plays a list of switchings on a computer: prints what a device would do, line for line what examples/player/play.sh
 * prints, and drives nothing. It is for trying player.c out, and shows how a board calls it.
 *
 *   player [--from EPOCH] [--cut EPOCH] [--speed N] [--controller NAME] [--outputs N] [--stagger MS] [--pump N]
 *          [--clock FILE] LIST...
 *
 *   LIST...            what "waterscript compile FILE --to csv --only switchings" writes, the newest first: the first
 *                      one that is whole is played, the others are not looked at; "--" before one that begins with "-"
 *   --from EPOCH       the power comes on at this second of the device's clock; default: now
 *   --cut EPOCH        the power goes at this second, once the last line of --clock has been used; default: never
 *   --speed N          how many seconds of the list pass in one; 0: all at once; default: 1
 *   --controller NAME  play no list but this controller's; default: whichever it is for
 *   --outputs N        how many outputs there are to close; default: as many as the list names
 *   --stagger MS       least time between two pulses, and between two openings; default: 0
 *   --pump N           an output that is closed before all others; default: none
 *   --clock FILE       a script of lines "AT TO": once the clock shows second AT, it is set to second TO
 *
 * Status: 0 played, or rested as it should; 1 no list is whole; 2 called wrongly; 3 the clock is not set. */
#define _POSIX_C_SOURCE 199309L     /* for nanosleep, the one thing here that is not C99 */

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "player.h"

struct options {
    uint32_t from, cut, speed, outputs, stagger, pump;
    const char *controller;
    FILE *clock;
};

static void wrong(const char *option, const char *what)
{
    fprintf(stderr, "player: %s%s; how to call it is said at its top\n", option, what);
    exit(2);
}

/* No sign, no fraction, no 0 in front, and nothing that does not fit. */
static uint32_t number_of(const char *option, const char *text)
{
    unsigned long long number = 0;
    size_t i, length = text ? strlen(text) : 0;
    for (i = 0; i < length && text[i] >= '0' && text[i] <= '9' && i < 11; i++) number = number * 10 + (unsigned)(text[i] - '0');
    if (length == 0 || length > 10 || i < length || (length > 1 && text[0] == '0')) wrong(option, " needs a whole number of ten digits at most");
    if (number > UINT32_MAX) wrong(option, " needs 4294967295 at most");
    return (uint32_t)number;
}

static uint32_t *number_option(struct options *options, const char *name)
{
    if (strcmp(name, "--from") == 0) return &options->from;
    if (strcmp(name, "--cut") == 0) return &options->cut;
    if (strcmp(name, "--speed") == 0) return &options->speed;
    if (strcmp(name, "--outputs") == 0) return &options->outputs;
    if (strcmp(name, "--stagger") == 0) return &options->stagger;
    return strcmp(name, "--pump") == 0 ? &options->pump : 0;
}

static void take_option(struct options *options, const char *name, const char *value)
{
    uint32_t *number = number_option(options, name);
    if (number) *number = number_of(name, value);
    else if (strcmp(name, "--controller") == 0) {
        if (!value || !*value) wrong(name, " needs a name");
        options->controller = value;
    } else if (strcmp(name, "--clock") == 0) {
        if (!value || !(options->clock = fopen(value, "r"))) wrong(name, " needs a file that can be read");
    } else wrong("there is no ", name);
}

/* Returns the index of the first list. */
static int take_options(struct options *options, int count, char **words)
{
    int i;
    options->from = (uint32_t)time(0);
    options->speed = 1;
    for (i = 1; i < count && words[i][0] == '-'; i += 2) {
        if (strcmp(words[i], "--") == 0) { i++; break; }
        take_option(options, words[i], i + 1 < count ? words[i + 1] : 0);
    }
    if (options->outputs > PLAYER_OUTPUTS) wrong("--outputs", " needs 4096 at most");
    if (options->stagger > 60000) wrong("--stagger", " needs 60000 at most");
    if (i >= count) wrong("", "a list is needed");
    return i;
}

/* ---- A list in a file ---- */

static int16_t next_byte(void *place)
{
    return (int16_t)getc((FILE *)place);
}

static bool rewind_file(void *place)
{
    return fseek((FILE *)place, 0, SEEK_SET) == 0;
}

/* Copies a field of a line, both counted from 1, as text. */
static void copy_field(FILE *file, uint32_t line, int field, char *copy, size_t room)
{
    int letter;
    size_t length = 0;
    rewind_file(file);
    while (line > 1 && (letter = getc(file)) != EOF) if (letter == '\n') line--;
    while ((letter = getc(file)) != EOF && letter != '\n' && letter != '\r' && field > 0) {
        if (letter == ',') field--;
        else if (field == 1 && length + 1 < room) copy[length++] = (char)letter;
    }
    copy[length] = '\0';
}

/* An empty line has no field. */
static int count_fields(FILE *file, uint32_t line)
{
    int letter, commas = 0;
    bool is_empty = true;
    rewind_file(file);
    while (line > 1 && (letter = getc(file)) != EOF) if (letter == '\n') line--;
    for (; (letter = getc(file)) != EOF && letter != '\n' && letter != '\r'; is_empty = false) if (letter == ',') commas++;
    return is_empty ? 0 : commas + 1;
}

static void print_line_fault(FILE *file, const struct player_list *list)
{
    char text[PLAYER_LINE];
    uint32_t line = list->fault_line;
    fprintf(stderr, "line %lu: ", (unsigned long)line);
    copy_field(file, line, list->fault == PLAYER_CONTROLLER ? 3 : list->fault == PLAYER_DO ? 5 : list->fault == PLAYER_POLARITY ? 6 : 4, text, sizeof text);
    switch (list->fault) {
        case PLAYER_AFTER_END: fprintf(stderr, "a line after the closing one"); break;
        case PLAYER_LINE_END: fprintf(stderr, "it does not end in CR LF, or has a CR within"); break;
        case PLAYER_FIELDS: fprintf(stderr, "%d fields, and there should be 9", count_fields(file, line)); break;
        case PLAYER_BOUNDS: fprintf(stderr, "not a time to begin and one to end"); break;
        case PLAYER_NUMBERS: fprintf(stderr, "not a row with a time and a max_on_s"); break;
        case PLAYER_ORDER: fprintf(stderr, "earlier than the line before it"); break;
        case PLAYER_NAME: fprintf(stderr, "not the name of a controller"); break;
        case PLAYER_CONTROLLER: fprintf(stderr, "for the controller %s, not for %s", text, list->controller); break;
        case PLAYER_OUTPUT: fprintf(stderr, "there is no output %s", text); break;
        case PLAYER_DO: fprintf(stderr, "\"%s\" is neither open nor close", text); break;
        case PLAYER_POLARITY:
            fprintf(stderr, "a pulse that is %s does not ", text);
            copy_field(file, line, 5, text, sizeof text);
            fprintf(stderr, "%s", text);
            break;
        case PLAYER_PULSE: fprintf(stderr, "not a pulse of up to 10000 ms"); break;
        case PLAYER_OPENING: fprintf(stderr, "not the number of an opening"); break;
        default: fprintf(stderr, "output %s has another pulse or max_on_s than before", text); break;
    }
}

static void print_hash(const struct player_list *list)
{
    int i;
    for (i = 0; i < 32; i++) fprintf(stderr, "%02x", list->digest[i]);
}

static void print_refusal(const char *path, FILE *file, const struct player_list *list)
{
    fprintf(stderr, "player: %s is refused: ", path);
    if (!file) fprintf(stderr, "there is no such file");
    else switch (list->fault) {
        case PLAYER_NO_HEADER: fprintf(stderr, "its first line is not that of a list of switchings"); break;
        case PLAYER_LONG_LINE: fprintf(stderr, "line %lu is longer than %d bytes", (unsigned long)list->fault_line, PLAYER_LINE); break;
        case PLAYER_CUT_IN_LINE: fprintf(stderr, "it is cut off in the middle of a line"); break;
        case PLAYER_CUT_OFF: fprintf(stderr, "it is cut off: the last line with its count and hash is missing"); break;
        case PLAYER_ROW_COUNT: fprintf(stderr, "it has %lu rows, and was written with another number", (unsigned long)list->lines - 2); break;
        case PLAYER_ALTERED: fprintf(stderr, "it is altered: its hash is "); print_hash(list); break;
        case PLAYER_NO_TEXT: fprintf(stderr, "it has bytes that are no text"); break;
        default: print_line_fault(file, list); break;
    }
    fprintf(stderr, "\n");
}

/* Reads a list for the first time. Nothing is switched before it is known to be whole. */
static bool is_whole(FILE *file, struct player_list *list, const char *controller, uint16_t outputs)
{
    int16_t byte;
    rewind_file(file);
    player_list_begin(list, controller, outputs);
    while ((byte = next_byte(file)) >= 0) player_list_byte(list, (uint8_t)byte);
    return player_list_end(list) == PLAYER_WHOLE;
}

/* The first list that is whole; 0 where none is. name: room for the controller that the list is for, where none is stated. */
static FILE *choose_list(const struct options *options, char **paths, struct player_list *list, char *name, size_t room)
{
    for (; *paths; paths++) {
        FILE *file = fopen(*paths, "rb");
        const char *controller = options->controller ? options->controller : name;
        if (file && !options->controller) copy_field(file, 2, 3, name, room);
        if (file && is_whole(file, list, controller, (uint16_t)(options->outputs ? options->outputs : PLAYER_OUTPUTS))) return file;
        print_refusal(*paths, file, list);
        if (file) fclose(file);
    }
    return 0;
}

/* ---- A clock and pins that are only printed ---- */

static void put_letter(void *place, char letter)
{
    putc(letter, (FILE *)place);
}

/* It is here that a device would move a pin. */
static void print_event(void *board, const struct player_event *event)
{
    player_log(event, put_letter, board);
    putc('\n', (FILE *)board);
}

struct clock {
    struct player_time now;
    uint32_t ticks, speed;
    FILE *script;
    uint32_t at, to;    /* the next line of the script */
    bool has_line;
};

static void read_script(struct clock *clock)
{
    unsigned long at, to;
    clock->has_line = clock->script && fscanf(clock->script, "%lu %lu", &at, &to) == 2;
    if (!clock->has_line) return;
    clock->at = (uint32_t)at;
    clock->to = (uint32_t)to;
}

static void let_go_by(struct clock *clock, uint32_t ms)
{
    if (clock->speed > 0) {
        struct timespec pause;
        pause.tv_sec = (time_t)(ms / clock->speed / 1000);
        pause.tv_nsec = (long)((uint64_t)ms * 1000000 / clock->speed % 1000000000);
        fflush(stdout);
        nanosleep(&pause, 0);
    }
    clock->ticks += ms;
    ms += clock->now.ms;
    clock->now.s += ms / 1000;
    clock->now.ms = (uint16_t)(ms % 1000);
}

static bool is_within(const struct clock *clock, uint32_t ms, uint32_t second)
{
    return (uint64_t)clock->now.s * 1000 + clock->now.ms + ms >= (uint64_t)second * 1000;
}

/* Waits, but no longer than until the script sets the clock. */
static void advance(struct clock *clock, uint32_t ms)
{
    if (!clock->has_line || !is_within(clock, ms, clock->at)) {
        let_go_by(clock, ms);
        return;
    }
    if (!is_within(clock, 0, clock->at)) let_go_by(clock, (clock->at - clock->now.s) * 1000 - clock->now.ms);
    clock->now.s = clock->to;
    clock->now.ms = 0;
    read_script(clock);
}

static void play(struct player *player, struct clock *clock, uint32_t cut)
{
    for (;;) {
        uint32_t wait = player_poll(player, clock->now, clock->ticks);
        if (player_is_over(player) && !clock->has_line) return;
        if (cut > 0 && !clock->has_line && (wait > 0 || player->state == PLAYER_CATCHING_UP) && is_within(clock, wait, cut)) return;
        if (wait > 0) advance(clock, wait);
    }
}

static int status_of(const struct player *player)
{
    if (!player_is_over(player) || player->why_resting == PLAYER_ENDED) return 0;
    return player->why_resting == PLAYER_NO_CLOCK ? 3 : 1;
}

int main(int count, char **words)
{
    struct options options = {0};
    struct player_list list;
    struct player player = {0};
    struct clock clock = {0};
    char name[PLAYER_LINE] = "";
    int first = take_options(&options, count, words);
    FILE *file = choose_list(&options, words + first, &list, name, sizeof name);

    clock.now.s = options.from;
    clock.speed = options.speed;
    clock.script = options.clock;
    read_script(&clock);
    player.carry_out = print_event;
    player.board = stdout;
    player.pump = (uint16_t)options.pump;

    player_log_header(put_letter, stdout);
    putc('\n', stdout);
    player_power_up(&player, (uint16_t)(options.outputs ? options.outputs : file ? list.most_output : 0), (uint16_t)options.stagger);
    if (file) player_take_up(&player, &list, (struct player_source){next_byte, rewind_file, file});
    play(&player, &clock, options.cut);

    if (file) fclose(file);
    if (options.clock) fclose(options.clock);
    return status_of(&player);
}
