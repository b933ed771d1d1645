/* The player on an ATmega328P with six outputs, which gets its list and its clock over a serial line from a computer.
 * How it is wired, and what goes over the line: README.md.
 *
 * What must not depend on the main loop is done by the timer: it ends every pulse, and closes an output that has been
 * open for too long. A watchdog restarts a main loop that hangs, and a restart closes everything. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>
#include <string.h>
#include <util/atomic.h>
#include <util/crc16.h>

#include "player.h"

#ifndef BOARD_NAME
#define BOARD_NAME "rig"            /* the name of the controller in the site: a list for another is refused */
#endif
#ifndef BOARD_LATCHING
#define BOARD_LATCHING 0x3F         /* a bit for each output that has a latching valve: it gets pulses, whatever a list says */
#endif
#ifndef BOARD_STAGGER_MS
#define BOARD_STAGGER_MS 500        /* how long the supply recharges between two pulses */
#endif
#ifndef BOARD_PUMP
#define BOARD_PUMP 0                /* the output of a pump, which is closed first; 0: none */
#endif
#ifndef BOARD_SYNC_MS
#define BOARD_SYNC_MS 600000        /* how often the clock is compared with the computer's */
#endif

#define OUTPUTS 6
#define PULSE_MS 50                 /* where the list does not state it, and before there is one */
#define MOST_PULSE_MS 200           /* what the coils bear */
#define RETRY_MS 60000              /* how long it rests without a list before it asks for one again */
#define ANSWER_MS 300               /* how long an answer may take to begin */
#define QUIET_MS 30                 /* after so long a silence it has ended */
#define TRIES 5
#define BLOCK 32                    /* bytes of the list that come at once */
#define BAUD_38400 51               /* UBRR0 at 16 MHz and double speed, 0.2 % off */

/* Everything the timer and the main loop share, and everything else. */
static struct board {
    volatile uint32_t ticks;
    volatile uint32_t most_s[OUTPUTS];      /* seconds until an open output is closed by the timer; 0: it is not open */
    volatile uint16_t pulse_ms[OUTPUTS];    /* milliseconds until its pulse ends; 0: there is none */
    volatile uint16_t ms_of_second;

    struct player player;
    struct player_list list;
    struct player_time clock;               /* what the clock showed at clock_ticks; 0 while it has not been set */
    uint32_t clock_ticks, sync_ticks, retry_ticks, poll_ticks;
    uint8_t block[BLOCK], block_length, block_at;
} board;

/* ---- Pins: port B opens, port C closes ---- */

static bool is_latching(uint8_t output)
{
    return BOARD_LATCHING >> output & 1;
}

static void end_pulse(uint8_t output)
{
    PORTB = (uint8_t)(PORTB & ~(1u << output));
    PORTC = (uint8_t)(PORTC & ~(1u << output));
    board.pulse_ms[output] = 0;
}

/* Called with interrupts off. A valve that is held open by power has no pulse: its pin is its state. */
static void move_pin(uint8_t output, bool is_open, uint16_t pulse_ms)
{
    end_pulse(output);
    if (is_latching(output)) board.pulse_ms[output] = (uint16_t)(pulse_ms + 1);     /* the millisecond now is not a whole one */
    if (is_open) PORTB = (uint8_t)(PORTB | 1u << output);
    else if (is_latching(output)) PORTC = (uint8_t)(PORTC | 1u << output);
}

static void count_second(void)
{
    uint8_t i;
    for (i = 0; i < OUTPUTS; i++)
        if (board.most_s[i] > 0 && --board.most_s[i] == 0) move_pin(i, false, PULSE_MS);
}

ISR(TIMER1_COMPA_vect)
{
    uint8_t i;
    board.ticks++;
    for (i = 0; i < OUTPUTS; i++)
        if (board.pulse_ms[i] > 0 && --board.pulse_ms[i] == 0) end_pulse(i);
    if (++board.ms_of_second < 1000) return;
    board.ms_of_second = 0;
    count_second();
}

static uint32_t ticks_now(void)
{
    uint32_t ticks;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) ticks = board.ticks;
    return ticks;
}

static uint16_t pulse_of(const struct player_kind *kind)
{
    uint16_t ms = kind ? player_pulse_ms(kind) : 0;
    if (ms == 0) ms = PULSE_MS;
    return ms < MOST_PULSE_MS ? ms : MOST_PULSE_MS;
}

/* ---- The serial line ---- */

static void put_letter(void *unused, char letter)
{
    (void)unused;
    while (!(UCSR0A & 1 << UDRE0)) wdt_reset();
    UDR0 = (uint8_t)letter;
}

/* The next byte; -1 where none comes in time. */
static int16_t get_byte(uint16_t patience_ms)
{
    uint32_t since = ticks_now();
    while (!(UCSR0A & 1 << RXC0)) {
        wdt_reset();
        if (ticks_now() - since > patience_ms) return -1;
    }
    return UDR0;
}

static void drop_what_came(void)
{
    while (UCSR0A & 1 << RXC0) (void)UDR0;
}

/* Reads an answer: its length, its bytes, and a checksum over both. */
static bool get_answer(uint8_t *bytes, uint8_t most, uint8_t *length)
{
    uint16_t crc = 0xFFFF;
    uint8_t i;
    int16_t byte = get_byte(ANSWER_MS);
    if (byte < 0 || byte > most) return false;
    *length = (uint8_t)byte;
    crc = _crc16_update(crc, *length);
    for (i = 0; i < *length; i++) {
        if ((byte = get_byte(QUIET_MS)) < 0) return false;
        bytes[i] = (uint8_t)byte;
        crc = _crc16_update(crc, bytes[i]);
    }
    for (i = 0; i < 2; i++, crc >>= 8) if (get_byte(QUIET_MS) != (int16_t)(crc & 0xFF)) return false;
    return true;
}

/* Asks until an answer comes whole: what a line does to bytes on their way must not get into a list that was checked. */
static bool ask(char question, char again, uint8_t *bytes, uint8_t most, uint8_t *length)
{
    uint8_t tries;
    for (tries = 0; tries < TRIES; tries++, question = again) {
        drop_what_came();
        put_letter(0, question);
        if (get_answer(bytes, most, length)) return true;
        while (get_byte(QUIET_MS) >= 0) { }
    }
    return false;
}

static int16_t next_byte(void *unused)
{
    (void)unused;
    if (board.block_at == board.block_length) {
        board.block_at = board.block_length = 0;
        if (!ask('N', 'A', board.block, BLOCK, &board.block_length)) {
            board.block_length = 0;
            return -1;
        }
        if (board.block_length == 0) return -1;
    }
    return board.block[board.block_at++];
}

static bool rewind_list(void *unused)
{
    uint8_t none;
    (void)unused;
    board.block_at = board.block_length = 0;
    return ask('R', 'R', &none, 0, &none);
}

/* ---- The clock ---- */

static struct player_time clock_now(uint32_t ticks)
{
    struct player_time now = {0, 0};
    uint32_t ms;
    if (board.clock.s == 0) return now;
    while (ticks - board.clock_ticks >= 1000) {
        board.clock_ticks += 1000;
        board.clock.s++;
    }
    ms = board.clock.ms + (ticks - board.clock_ticks);
    now.s = board.clock.s + ms / 1000;
    now.ms = (uint16_t)(ms % 1000);
    return now;
}

/* Seconds since 1970 and milliseconds, the low byte first. A clock that the computer does not know stays as it is. */
static void set_clock(void)
{
    uint8_t bytes[6], length;
    struct player_time now;
    if (!ask('T', 'T', bytes, sizeof bytes, &length) || length != sizeof bytes) return;
    now.s = bytes[0] | (uint32_t)bytes[1] << 8 | (uint32_t)bytes[2] << 16 | (uint32_t)bytes[3] << 24;
    now.ms = (uint16_t)(bytes[4] | (uint16_t)bytes[5] << 8);
    if (now.s == 0 || now.ms > 999) return;
    board.clock = now;
    board.clock_ticks = ticks_now();
}

/* ---- What the player asks for ---- */

static void carry_out(void *unused, const struct player_event *event)
{
    (void)unused;
    if (event->output > 0) {
        uint8_t output = (uint8_t)(event->output - 1);
        uint16_t pulse_ms = pulse_of(event->kind);
        ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
            board.most_s[output] = event->what == PLAYER_OPEN ? event->most_on_s : 0;
            move_pin(output, event->what == PLAYER_OPEN, pulse_ms);
        }
    }
    put_letter(0, 'L');
    player_log(event, put_letter, 0);
    put_letter(0, '\n');
}

/* The number is that in enum player_fault. */
static void log_refusal(void)
{
    put_letter(0, 'F');
    put_letter(0, (char)('0' + board.list.fault / 10));
    put_letter(0, (char)('0' + board.list.fault % 10));
    put_letter(0, '\n');
}

/* Reads the list for the first time, with everything closed. One that has ended is not taken up again. */
static void look_for_list(void)
{
    uint8_t old[sizeof board.list.digest];
    bool has_ended = board.player.why_resting == PLAYER_ENDED;
    int16_t byte;
    memcpy(old, board.list.digest, sizeof old);
    board.player.list = 0;
    if (!rewind_list(0)) return;
    player_list_begin(&board.list, BOARD_NAME, OUTPUTS);
    while ((byte = next_byte(0)) >= 0) player_list_byte(&board.list, (uint8_t)byte);
    if (player_list_end(&board.list) != PLAYER_WHOLE) log_refusal();
    else if (has_ended && memcmp(old, board.list.digest, sizeof old) == 0) board.player.list = &board.list;
    else player_take_up(&board.player, &board.list, (struct player_source){next_byte, rewind_list, 0});
}

/* ---- The board ---- */

/* A restart by the watchdog leaves it running, at its shortest. This comes before anything else. */
static void stop_watchdog(void) __attribute__((naked, used, section(".init3")));
static void stop_watchdog(void)
{
    MCUSR = 0;
    wdt_disable();
}

static void set_up(void)
{
    PORTB = PORTC = 0;
    DDRB = DDRC = (1 << OUTPUTS) - 1;
    UBRR0 = BAUD_38400;
    UCSR0A = 1 << U2X0;
    UCSR0B = 1 << RXEN0 | 1 << TXEN0;
    OCR1A = F_CPU / 64 / 1000 - 1;
    TCCR1B = 1 << WGM12 | 1 << CS11 | 1 << CS10;
    TIMSK1 = 1 << OCIE1A;
    wdt_enable(WDTO_2S);
    sei();
}

/* Returns whether a span has gone by since it did so last; the first time at once. */
static bool is_time_again(uint32_t *last_ticks, uint32_t span_ms)
{
    uint32_t ticks = ticks_now();
    if (*last_ticks != 0 && ticks - *last_ticks < span_ms) return false;
    *last_ticks = ticks | 1;
    return true;
}

/* Once everything is closed, what is missing is asked for. */
static void ask_for_what_is_missing(void)
{
    if (board.player.state <= PLAYER_CLOSING) return;
    if (is_time_again(&board.sync_ticks, board.clock.s == 0 ? RETRY_MS : BOARD_SYNC_MS)) {
        set_clock();
        board.poll_ticks = ticks_now();
    }
    if (player_is_over(&board.player) && board.player.why_resting != PLAYER_NO_CLOCK && is_time_again(&board.retry_ticks, RETRY_MS)) {
        look_for_list();
        board.poll_ticks = ticks_now();
    }
}

static void go_on(void)
{
    uint32_t ticks = ticks_now();
    if (ticks - board.poll_ticks < UINT32_MAX / 2)      /* that moment has come; the difference wraps as the counter does */
        board.poll_ticks = ticks + player_poll(&board.player, clock_now(ticks), ticks);
    else
        sleep_mode();
}

int main(void)
{
    set_up();
    board.player.carry_out = carry_out;
    board.player.pump = BOARD_PUMP;
    player_power_up(&board.player, OUTPUTS, BOARD_STAGGER_MS);
    for (;;) {
        wdt_reset();
        go_on();
        ask_for_what_is_missing();
#ifdef BOARD_HANGS_AT       /* for a test of the timer and of the watchdog: from this second on the main loop does nothing */
        while (board.clock.s >= BOARD_HANGS_AT) if (BOARD_FEEDS_WATCHDOG) wdt_reset();
#endif
    }
}
