/* See player.h. */
#include "player.h"

#include <string.h>

/* An 8-bit board has little RAM and copies constants into it unless they are kept in flash. */
#ifdef __AVR__
#include <avr/pgmspace.h>
#define FLASH PROGMEM
#define FLASH_LETTER(at) ((char)pgm_read_byte(at))
#define FLASH_WORD(at) pgm_read_dword(at)
#else
#define FLASH
#define FLASH_LETTER(at) (*(at))
#define FLASH_WORD(at) (*(at))
#endif

static const char HEADER[] FLASH = "t,after_ms,controller,output,do,polarity,pulse_ms,max_on_s,opening\r\n";
static const char LOG_HEADER[] FLASH = "time,controller,output,do,polarity,pulse_ms,why,opening,list";
static const char END[] FLASH = "end";
static const char OPEN[] FLASH = "open";
static const char CLOSE[] FLASH = "close";
static const char POSITIVE[] FLASH = "positive";
static const char NEGATIVE[] FLASH = "negative";

/* ---- SHA-256 (FIPS 180-4) ---- */

static const uint32_t SHA256_START[8] FLASH = {
    0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19
};

static const uint32_t SHA256_ROUND[64] FLASH = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2
};

static uint32_t rotated(uint32_t word, uint8_t bits)
{
    return (word >> bits) | (word << (32 - bits));
}

static void sha256_begin(struct player_sha256 *sha)
{
    uint8_t i;
    memset(sha, 0, sizeof *sha);
    for (i = 0; i < 8; i++) sha->state[i] = FLASH_WORD(&SHA256_START[i]);
}

/* The next word of the message schedule; the sixteen that it needs are kept in a ring. */
static uint32_t sha256_scheduled(uint32_t *w, uint8_t round)
{
    uint32_t early = w[(round + 1) & 15], late = w[(round + 14) & 15];
    uint32_t s0 = rotated(early, 7) ^ rotated(early, 18) ^ (early >> 3);
    uint32_t s1 = rotated(late, 17) ^ rotated(late, 19) ^ (late >> 10);
    return w[round & 15] += s0 + w[(round + 9) & 15] + s1;
}

static void sha256_round(uint32_t v[8], uint32_t scheduled, uint32_t constant)
{
    uint32_t s1 = rotated(v[4], 6) ^ rotated(v[4], 11) ^ rotated(v[4], 25);
    uint32_t t1 = v[7] + s1 + ((v[4] & v[5]) ^ (~v[4] & v[6])) + constant + scheduled;
    uint32_t s0 = rotated(v[0], 2) ^ rotated(v[0], 13) ^ rotated(v[0], 22);
    uint32_t t2 = s0 + ((v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]));
    memmove(v + 1, v, 7 * sizeof *v);
    v[4] += t1;
    v[0] = t1 + t2;
}

static void sha256_block(struct player_sha256 *sha)
{
    uint32_t v[8];
    uint8_t i;
    memcpy(v, sha->state, sizeof v);
    for (i = 0; i < 64; i++)
        sha256_round(v, i < 16 ? sha->block[i] : sha256_scheduled(sha->block, i), FLASH_WORD(&SHA256_ROUND[i]));
    for (i = 0; i < 8; i++) sha->state[i] += v[i];
}

static void sha256_byte(struct player_sha256 *sha, uint8_t byte)
{
    uint32_t *word = &sha->block[(sha->bytes >> 2) & 15];
    *word = (*word << 8) | byte;
    sha->bytes++;
    if ((sha->bytes & 63) == 0) sha256_block(sha);
}

static void sha256_text(struct player_sha256 *sha, const char *text, uint16_t length)
{
    while (length-- > 0) sha256_byte(sha, (uint8_t)*text++);
}

static void sha256_end(struct player_sha256 *sha, uint8_t digest[32])
{
    uint32_t bytes = sha->bytes;
    uint8_t i;
    sha256_byte(sha, 0x80);
    while ((sha->bytes & 63) != 56) sha256_byte(sha, 0);
    for (i = 0; i < 3; i++) sha256_byte(sha, 0);
    sha256_byte(sha, (uint8_t)(bytes >> 29));
    bytes <<= 3;
    for (i = 0; i < 4; i++, bytes <<= 8) sha256_byte(sha, (uint8_t)(bytes >> 24));
    for (i = 0; i < 32; i++) digest[i] = (uint8_t)(sha->state[i >> 2] >> (24 - 8 * (i & 3)));
}

/* ---- The fields of a line ---- */

struct text {
    const char *at;
    uint16_t length;
};

/* The nth field of the line that has been read, from 0; empty where there are fewer. */
static struct text field(const struct player_list *list, uint8_t n)
{
    const char *at = list->line, *end = at + (list->length < 2 ? 0 : list->length - 2);
    struct text found;
    for (; n > 0 && at < end; at++) if (*at == ',') n--;
    found.at = at;
    while (at < end && *at != ',') at++;
    found.length = (uint16_t)(at - found.at);
    return found;
}

/* An empty line has no field, which is how awk counts as well. */
static uint16_t count_fields(const struct player_list *list)
{
    uint16_t i, count = 1;
    if (list->length <= 2) return 0;
    for (i = 0; i < list->length; i++) if (list->line[i] == ',') count++;
    return count;
}

static bool is_word(struct text text, const char *word)
{
    uint16_t i;
    for (i = 0; i < text.length; i++) if (FLASH_LETTER(word + i) == '\0' || text.at[i] != FLASH_LETTER(word + i)) return false;
    return FLASH_LETTER(word + text.length) == '\0';
}

static bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

/* Digits only, no 0 in front that could mean eight, and nothing that would wrap. */
static bool is_whole(struct text text, uint32_t least, uint32_t most, uint32_t *value)
{
    uint16_t i;
    *value = 0;
    if (text.length == 0 || (text.length > 1 && text.at[0] == '0')) return false;
    for (i = 0; i < text.length; i++) {
        uint8_t digit = (uint8_t)(text.at[i] - '0');
        if (!is_digit(text.at[i]) || *value > (UINT32_MAX - digit) / 10) return false;
        *value = *value * 10 + digit;
    }
    return *value >= least && *value <= most;
}

static bool has_digit_above_zero(struct text text)
{
    uint16_t i;
    for (i = 0; i < text.length; i++) if (text.at[i] >= '1' && text.at[i] <= '9') return true;
    return false;
}

/* Above 0, up to 10000 ms, with or without decimals: a longer one burns the coil. */
static bool is_pulse(struct text text)
{
    struct text whole = text, decimals;
    uint32_t ms;
    uint16_t i;
    if (text.length > PLAYER_PULSE_TEXT) return false;
    for (whole.length = 0; whole.length < text.length && text.at[whole.length] != '.';) whole.length++;
    decimals.at = text.at + whole.length;
    decimals.length = (uint16_t)(text.length - whole.length);
    for (i = 1; i < decimals.length; i++) if (!is_digit(decimals.at[i])) return false;
    return decimals.length != 1 && is_whole(whole, 0, 10000, &ms)
        && (ms < 10000 || !has_digit_above_zero(decimals)) && has_digit_above_zero(text);
}

static bool is_name_letter(char letter, bool is_first)
{
    return (letter >= 'A' && letter <= 'Z') || (letter >= 'a' && letter <= 'z') || letter == '_' || (uint8_t)letter >= 0x80
        || (!is_first && (is_digit(letter) || letter == '-'));
}

/* Letters that are not ASCII are UTF-8, in which C2 80 to C2 9F are control characters. */
static bool is_name(struct text text)
{
    uint16_t i;
    for (i = 0; i < text.length; i++) {
        if (!is_name_letter(text.at[i], i == 0)) return false;
        if (i > 0 && (uint8_t)text.at[i - 1] == 0xC2 && (uint8_t)text.at[i] >= 0x80 && (uint8_t)text.at[i] <= 0x9F) return false;
    }
    return text.length > 0;
}

/* ---- A row ---- */

static bool is_before(struct player_time a, struct player_time b)
{
    return a.s < b.s || (a.s == b.s && a.ms < b.ms);
}

static enum player_fault read_times(struct player_list *list, struct player_row *row, uint32_t *max_on_s)
{
    uint32_t after_ms;
    if (!is_whole(field(list, 0), 0, UINT32_MAX, &row->due.s) || !is_whole(field(list, 1), 0, 999, &after_ms)
        || !is_whole(field(list, 7), 1, UINT32_MAX, max_on_s))
        return PLAYER_NUMBERS;
    row->due.ms = (uint16_t)after_ms;
    return is_before(row->due, list->row.due) ? PLAYER_ORDER : PLAYER_WHOLE;
}

static enum player_fault read_output(const struct player_list *list, struct player_row *row)
{
    struct text name = field(list, 2);
    uint32_t output;
    if (!is_name(name)) return PLAYER_NAME;
    if (strlen(list->controller) != name.length || memcmp(list->controller, name.at, name.length) != 0) return PLAYER_CONTROLLER;
    if (!is_whole(field(list, 3), 1, list->outputs, &output)) return PLAYER_OUTPUT;
    row->output = (uint16_t)output;
    return PLAYER_WHOLE;
}

static enum player_fault read_pulse(const struct player_list *list, struct player_row *row, struct player_kind *kind)
{
    struct text what = field(list, 4), polarity = field(list, 5), pulse = field(list, 6);
    row->is_open = is_word(what, OPEN);
    if (!row->is_open && !is_word(what, CLOSE)) return PLAYER_DO;
    kind->is_latching = polarity.length > 0;
    if (kind->is_latching && !is_word(polarity, row->is_open ? POSITIVE : NEGATIVE)) return PLAYER_POLARITY;
    if (pulse.length > 0 && (!kind->is_latching || !is_pulse(pulse))) return PLAYER_PULSE;
    memcpy(kind->pulse_ms, pulse.at, pulse.length);
    return PLAYER_WHOLE;
}

/* The kind of an output is what its first row says, and no later row may say anything else. */
static enum player_fault compare_kind(struct player_list *list, uint16_t output, const struct player_kind *kind)
{
    struct player_kind *known = &list->kinds[output - 1];
    if (!known->is_named && !list->is_second_reading) *known = *kind;
    return known->is_named && known->max_on_s == kind->max_on_s && known->is_latching == kind->is_latching
        && strcmp(known->pulse_ms, kind->pulse_ms) == 0 ? PLAYER_WHOLE : PLAYER_KIND;
}

static enum player_fault read_row(struct player_list *list)
{
    struct player_row row;
    struct player_kind kind;
    enum player_fault fault;
    memset(&kind, 0, sizeof kind);
    kind.is_named = true;
    if ((fault = read_times(list, &row, &kind.max_on_s)) != PLAYER_WHOLE) return fault;
    if ((fault = read_output(list, &row)) != PLAYER_WHOLE) return fault;
    if ((fault = read_pulse(list, &row, &kind)) != PLAYER_WHOLE) return fault;
    if (!is_whole(field(list, 8), 1, UINT32_MAX, &row.opening)) return PLAYER_OPENING;
    if ((fault = compare_kind(list, row.output, &kind)) != PLAYER_WHOLE) return fault;
    if (row.output > list->most_output) list->most_output = row.output;
    list->row = row;
    return PLAYER_WHOLE;
}

static enum player_fault read_closing_row(struct player_list *list)
{
    list->has_ended = true;
    list->row_is_closing = true;
    return is_whole(field(list, 3), 0, UINT32_MAX, &list->begins) && is_whole(field(list, 4), 0, UINT32_MAX, &list->ends)
        && list->begins < list->ends ? PLAYER_WHOLE : PLAYER_BOUNDS;
}

/* ---- A list ---- */

static bool is_header(const struct player_list *list, uint16_t length)
{
    uint16_t i;
    for (i = 0; i < length; i++) if (FLASH_LETTER(&HEADER[i]) != list->line[i]) return false;
    return true;
}

static bool line_ends_well(const struct player_list *list)
{
    return list->length >= 2 && list->line[list->length - 2] == '\r' && memchr(list->line, '\r', list->length - 2u) == 0;
}

static enum player_fault read_line(struct player_list *list)
{
    if (list->lines == 1) return list->length == sizeof HEADER - 1 && is_header(list, list->length) ? PLAYER_WHOLE : PLAYER_NO_HEADER;
    if (list->has_ended) return PLAYER_AFTER_END;
    if (!line_ends_well(list)) return PLAYER_LINE_END;
    if (count_fields(list) != 9) return PLAYER_FIELDS;
    return is_word(field(list, 0), END) ? read_closing_row(list) : read_row(list);
}

/* The first fault stays; it is known only at the end whether there is a graver one. */
static void note_fault(struct player_list *list, enum player_fault fault)
{
    if (list->fault != PLAYER_WHOLE || fault == PLAYER_WHOLE) return;
    list->fault = fault;
    list->fault_line = list->lines;
}

static void begin_reading(struct player_list *list)
{
    sha256_begin(&list->sha);
    memset(&list->row, 0, sizeof list->row);
    list->lines = 0;
    list->length = 0;
    list->fault = PLAYER_WHOLE;
    list->line_is_over = list->row_is_closing = list->has_ended = list->has_no_text = false;
}

void player_list_begin(struct player_list *list, const char *controller, uint16_t outputs)
{
    memset(list, 0, sizeof *list);
    list->controller = controller;
    list->outputs = outputs < PLAYER_OUTPUTS ? outputs : PLAYER_OUTPUTS;
    begin_reading(list);
}

/* Only the last line is hashed without its hash, and without what says where the list comes from, so a line waits until it is known whether another byte
   follows. */
static void let_line_go(struct player_list *list)
{
    sha256_text(&list->sha, list->line, list->length);
    list->length = 0;
    list->line_is_over = false;
}

void player_list_byte(struct player_list *list, uint8_t byte)
{
    if (list->fault == PLAYER_LONG_LINE || list->fault == PLAYER_NO_HEADER) return;
    if (list->line_is_over) let_line_go(list);
    if ((byte < ' ' && byte != '\r' && byte != '\n') || byte == 0x7F) list->has_no_text = true;
    if (list->length == PLAYER_LINE) {
        list->lines++;
        list->fault = list->lines == 1 ? PLAYER_NO_HEADER : PLAYER_LONG_LINE;
        list->fault_line = list->lines;
        return;
    }
    list->line[list->length++] = (char)byte;
    if (byte != '\n') return;
    list->line_is_over = true;
    list->lines++;
    if (list->fault == PLAYER_WHOLE) note_fault(list, read_line(list));
}

static void hash_last_line(struct player_list *list, uint8_t digest[32])
{
    static const char tail[] = ",,,,";
    struct text hash = field(list, 2), until = field(list, 4);
    uint16_t before = (uint16_t)(hash.at - list->line), after = (uint16_t)(before + hash.length);
    uint16_t rest = (uint16_t)(field(list, 8).at - list->line);
    bool is_closing = is_word(field(list, 0), END) && count_fields(list) >= 9;
    sha256_text(&list->sha, list->line, is_closing ? before : list->length);
    while (rest + 1 < list->length && list->line[rest] != ',' && list->line[rest] != '\r') rest++;
    if (is_closing) {
        sha256_text(&list->sha, list->line + after, (uint16_t)((uint16_t)(until.at - list->line) + until.length - after));
        sha256_text(&list->sha, tail, sizeof tail - 1);
        sha256_text(&list->sha, list->line + rest, (uint16_t)(list->length - rest));
    }
    sha256_end(&list->sha, digest);
}

static char hex_digit(uint8_t value)
{
    return (char)(value < 10 ? '0' + value : 'a' + value - 10);
}

static bool is_hash(struct text text, const uint8_t digest[32])
{
    uint8_t i;
    for (i = 0; i < 64 && text.length == 64; i++)
        if (text.at[i] != hex_digit((i & 1 ? digest[i >> 1] : digest[i >> 1] >> 4) & 15)) return false;
    return text.length == 64;
}

/* What the whole file has to be, the graver reason first: bytes that came to harm say nothing that can be relied on. */
static enum player_fault find_damage(struct player_list *list, uint8_t digest[32])
{
    uint32_t rows;
    if (list->fault == PLAYER_NO_HEADER || list->fault == PLAYER_LONG_LINE) return list->fault;
    if (list->lines == 0 && (list->length != sizeof HEADER - 2 || !is_header(list, list->length))) return PLAYER_NO_HEADER;
    if (!list->line_is_over) return PLAYER_CUT_IN_LINE;
    if (!is_word(field(list, 0), END) || list->line[3] != ',') return PLAYER_CUT_OFF;
    if (!is_whole(field(list, 1), 0, UINT32_MAX, &rows) || rows != list->lines - 2) return PLAYER_ROW_COUNT;
    hash_last_line(list, digest);
    if (!is_hash(field(list, 2), digest)) return PLAYER_ALTERED;
    return list->has_no_text ? PLAYER_NO_TEXT : list->fault;
}

enum player_fault player_list_end(struct player_list *list)
{
    uint8_t digest[32] = {0};
    list->fault = find_damage(list, digest);
    if (!list->is_second_reading)
        memcpy(list->digest, digest, sizeof digest);
    else if (list->fault == PLAYER_WHOLE && memcmp(list->digest, digest, sizeof digest) != 0)
        list->fault = PLAYER_ALTERED;
    return list->fault;
}

/* ---- Time ---- */

/* As many milliseconds as it takes until a moment, at most the longest wait, so that nothing wraps. */
static uint32_t ms_until(struct player_time now, struct player_time moment)
{
    uint32_t ms;
    if (!is_before(now, moment)) return 0;
    if (moment.s - now.s > PLAYER_LONGEST_WAIT_MS / 1000u) return PLAYER_LONGEST_WAIT_MS;
    ms = (moment.s - now.s) * 1000 + moment.ms - now.ms;
    return ms < PLAYER_LONGEST_WAIT_MS ? ms : PLAYER_LONGEST_WAIT_MS;
}

/* Stops at the last moment that can be written rather than beginning again in 1970. */
static struct player_time plus_seconds(struct player_time moment, uint32_t seconds)
{
    static const struct player_time last = {UINT32_MAX, 999};
    if (seconds > UINT32_MAX - moment.s) return last;
    moment.s += seconds;
    return moment;
}

static struct player_time plus_ms(struct player_time moment, uint32_t ms)
{
    uint16_t within = (uint16_t)(moment.ms + ms % 1000);
    moment = plus_seconds(moment, ms / 1000 + within / 1000);
    if (moment.s != UINT32_MAX) moment.ms = within % 1000;
    return moment;
}

static bool is_set(struct player_time clock)
{
    return clock.s >= PLAYER_CLOCK_UNSET;
}

/* Whether the clock shows something else than what it showed before and what has gone by since. */
static bool was_clock_moved(const struct player *player, struct player_time now, uint32_t elapsed_ms)
{
    struct player_time expected = plus_ms(player->now, elapsed_ms);
    if (!is_set(now) || !is_set(player->now)) return is_set(now) != is_set(player->now);
    return ms_until(expected, now) > PLAYER_CLOCK_STEP_S * 1000 || ms_until(now, expected) > PLAYER_CLOCK_STEP_S * 1000;
}

/* ---- What is done to an output ---- */

static const struct player_kind *kind_of(const struct player *player, uint16_t output)
{
    return player->list && player->list->kinds[output - 1].is_named ? &player->list->kinds[output - 1] : 0;
}

/* Pulses, and openings of every kind, keep their distance. What no list names may be a latching valve. */
static bool keeps_distance(const struct player *player, uint16_t output, enum player_do what)
{
    const struct player_kind *kind = kind_of(player, output);
    return what == PLAYER_OPEN || !kind || kind->is_latching;
}

/* Milliseconds until an output may be switched. By the counter, for the clock may be put right meanwhile. */
static uint32_t wait_for_distance(const struct player *player, uint16_t output, enum player_do what)
{
    uint32_t since = player->ticks - player->spaced_ticks;
    return player->is_spaced && since < player->stagger_ms && keeps_distance(player, output, what) ? player->stagger_ms - since : 0;
}

static struct player_event event_of(const struct player *player, enum player_do what, enum player_why why)
{
    struct player_event event;
    memset(&event, 0, sizeof event);
    event.at = player->now;
    event.list = player->list;
    event.what = what;
    event.why = why;
    return event;
}

static void report(struct player *player, enum player_do what, enum player_why why)
{
    struct player_event event = event_of(player, what, why);
    player->carry_out(player->board, &event);
}

static void switch_output(struct player *player, uint16_t output, enum player_do what, enum player_why why)
{
    struct player_event event = event_of(player, what, why);
    event.output = output;
    event.kind = kind_of(player, output);
    event.opening = player->output[output - 1].opening;
    if (keeps_distance(player, output, what)) {
        player->is_spaced = true;
        player->spaced_ticks = player->ticks;
    }
    if (what == PLAYER_OPEN) {
        uint32_t ms = ms_until(player->now, player->output[output - 1].guard);
        event.most_on_s = ms < PLAYER_LONGEST_WAIT_MS ? (ms + 999) / 1000 : player->output[output - 1].guard.s - player->now.s;
        player->is_closed = false;
    }
    player->carry_out(player->board, &event);
}

/* What is so late that the guard is due already stays closed. */
static void open_if_due(struct player *player, uint16_t output, enum player_why why)
{
    if (is_before(player->now, player->output[output - 1].guard)) switch_output(player, output, PLAYER_OPEN, why);
}

/* ---- Closing everything ---- */

static void begin_closing(struct player *player, enum player_why why)
{
    player->state = PLAYER_CLOSING;
    player->why_closing = why;
    player->closed = 0;
}

static void rest(struct player *player, enum player_why why)
{
    player->state = PLAYER_RESTING;
    player->why_resting = why;
    report(player, PLAYER_REST, why);
}

/* What an output has to be follows from the list and the clock alone. So the rows up to now are read again, without switching. */
static void begin_list(struct player *player)
{
    memset(player->output, 0, sizeof player->output);
    player->turns = player->joined_turn = 0;
    player->has_row = player->list_is_over = player->has_joined = false;
    if (player->why_closing == PLAYER_LIST_LOST) rest(player, PLAYER_LIST_LOST);
    else if (!is_set(player->now)) rest(player, PLAYER_NO_CLOCK);
    else if (!player->list) rest(player, PLAYER_NO_LIST);
    else if (!player->source.rewind(player->source.place)) rest(player, PLAYER_LIST_LOST);
    else {
        player->list->is_second_reading = true;
        begin_reading(player->list);
        player->state = PLAYER_CATCHING_UP;
    }
}

/* The pump goes first, lest it run against closed valves. */
static uint16_t next_to_close(const struct player *player)
{
    uint16_t output = (uint16_t)(player->closed + 1), pump = player->pump;
    if (pump == 0 || pump > player->outputs || output > pump) return output;
    return output == 1 ? pump : (uint16_t)(output - 1);
}

static uint32_t go_on_closing(struct player *player)
{
    uint16_t output = next_to_close(player);
    uint32_t wait;
    if (player->closed == player->outputs) {
        player->is_closed = true;
        begin_list(player);
        return 0;
    }
    wait = wait_for_distance(player, output, PLAYER_CLOSE);
    if (wait > 0) return wait;
    player->closed++;
    player->output[output - 1].opening = 0;
    switch_output(player, output, PLAYER_CLOSE, player->why_closing);
    return 0;
}

/* ---- Carrying the list out ---- */

/* At the end of the second reading the hash shows whether it was the list that had been checked. */
static bool is_same_list(struct player *player)
{
    return player->source.next(player->source.place) < 0 && player_list_end(player->list) == PLAYER_WHOLE;
}

/* Reads on to the next row. False where that is no longer the list that was checked. */
static bool fetch_row(struct player *player)
{
    struct player_list *list = player->list;
    do {
        int16_t byte = player->source.next(player->source.place);
        if (byte < 0) return false;
        player_list_byte(list, (uint8_t)byte);
        if (list->fault != PLAYER_WHOLE || list->has_no_text) return false;
    } while (!list->line_is_over || list->lines == 1);
    player->row = list->row;
    player->list_is_over = list->row_is_closing;
    player->has_row = !list->row_is_closing;
    return !list->row_is_closing || is_same_list(player);
}

/* The open output whose guard acts first, no later than a moment; 0: none. */
static uint16_t first_guarded(const struct player *player, struct player_time until)
{
    uint16_t i, first = 0;
    for (i = 0; i < player->outputs; i++) {
        const struct player_output *output = &player->output[i];
        if (!output->is_open || is_before(until, output->guard)) continue;
        if (first == 0 || is_before(output->guard, player->output[first - 1].guard)) first = (uint16_t)(i + 1);
    }
    return first;
}

static uint32_t close_guarded(struct player *player, uint16_t output)
{
    bool is_silent = player->state == PLAYER_CATCHING_UP;
    uint32_t wait = is_silent ? 0 : wait_for_distance(player, output, PLAYER_CLOSE);
    if (wait > 0) return wait;
    player->output[output - 1].is_open = false;
    if (!is_silent) switch_output(player, output, PLAYER_CLOSE, PLAYER_GUARD);
    return 0;
}

/* An output that is open already is not opened again: it would be given new patience. */
static void note_row(struct player *player, struct player_output *output)
{
    const struct player_row *row = &player->row;
    output->opening = row->opening;
    output->is_open = row->is_open;
    if (!row->is_open) return;
    output->guard = plus_seconds(row->due, player->list->kinds[row->output - 1].max_on_s);
    output->turn = ++player->turns;
}

static uint32_t carry_out_row(struct player *player)
{
    const struct player_row *row = &player->row;
    struct player_output *output = &player->output[row->output - 1];
    bool is_repeated = row->is_open && output->is_open, is_silent = player->state == PLAYER_CATCHING_UP;
    uint32_t wait = is_repeated || is_silent ? 0 : wait_for_distance(player, row->output, row->is_open ? PLAYER_OPEN : PLAYER_CLOSE);
    if (wait > 0) return wait;
    player->has_row = false;
    if (is_repeated) return 0;
    note_row(player, output);
    if (is_silent) return 0;
    if (row->is_open) open_if_due(player, row->output, PLAYER_BY_LIST);
    else switch_output(player, row->output, PLAYER_CLOSE, PLAYER_BY_LIST);
    return 0;
}

/* The next thing to come, in order of time: a guard that acts, a row, the end. */
static uint32_t go_on_with_list(struct player *player)
{
    struct player_time due = {UINT32_MAX, 999};
    bool is_silent = player->state == PLAYER_CATCHING_UP;
    uint16_t guarded;
    if (!player->has_row && !player->list_is_over && !fetch_row(player)) {
        begin_closing(player, PLAYER_LIST_LOST);
        return 0;
    }
    if (player->has_row) due = player->row.due;
    guarded = first_guarded(player, due);
    if (guarded > 0) due = player->output[guarded - 1].guard;
    else if (!player->has_row) due = plus_seconds((struct player_time){0, 0}, player->list->ends);

    if (is_silent && (is_before(player->now, due) || (guarded == 0 && !player->has_row))) player->state = PLAYER_JOINING;
    else if (is_before(player->now, due)) return ms_until(player->now, due);
    else if (guarded > 0) return close_guarded(player, guarded);
    else if (player->has_row) return carry_out_row(player);
    else rest(player, PLAYER_ENDED);
    return 0;
}

/* The open output that comes next in the order in which the list opened them; 0: none is left. */
static uint16_t next_to_join(const struct player *player)
{
    uint16_t i, next = 0;
    for (i = 0; i < player->outputs; i++) {
        const struct player_output *output = &player->output[i];
        if (!output->is_open || output->turn <= player->joined_turn) continue;
        if (next == 0 || output->turn < player->output[next - 1].turn) next = (uint16_t)(i + 1);
    }
    return next;
}

static uint32_t go_on_joining(struct player *player)
{
    uint16_t output = next_to_join(player);
    uint32_t wait;
    if (output == 0) {
        player->state = PLAYER_PLAYING;
        if (!player->has_joined && player->now.s < player->list->begins) report(player, PLAYER_REST, PLAYER_NOT_BEGUN);
        return 0;
    }
    wait = wait_for_distance(player, output, PLAYER_OPEN);
    if (wait > 0) return wait;
    player->joined_turn = player->output[output - 1].turn;
    player->has_joined = true;
    open_if_due(player, output, PLAYER_JOIN);
    return 0;
}

/* ---- What the board calls ---- */

void player_power_up(struct player *player, uint16_t outputs, uint16_t stagger_ms)
{
    player->list = 0;
    player->why_closing = PLAYER_POWER_UP;
    player->outputs = outputs < PLAYER_OUTPUTS ? outputs : PLAYER_OUTPUTS;
    player->stagger_ms = stagger_ms;
    player->is_spaced = player->is_closed = false;
    player->state = PLAYER_BOOTING;
}

/* Nothing is closed twice: where nothing has been opened since everything was closed, the list is taken up at once. */
static void restart(struct player *player, enum player_why why)
{
    report(player, PLAYER_RESET, why);
    begin_closing(player, why);
    if (player->is_closed) player->closed = player->outputs;
}

void player_take_up(struct player *player, struct player_list *list, struct player_source source)
{
    player->list = list;
    player->source = source;
    if (player->why_closing == PLAYER_LIST_LOST) player->why_closing = PLAYER_NEW_LIST;
    if (player->state != PLAYER_BOOTING && player->state != PLAYER_CLOSING) restart(player, PLAYER_NEW_LIST);
}

uint32_t player_poll(struct player *player, struct player_time now, uint32_t ticks)
{
    bool was_moved = player->state > PLAYER_CLOSING && was_clock_moved(player, now, ticks - player->ticks);
    player->now = now;
    player->ticks = ticks;
    if (was_moved) restart(player, PLAYER_CLOCK);
    switch (player->state) {
        case PLAYER_BOOTING:
            report(player, PLAYER_BOOT, PLAYER_NONE);
            begin_closing(player, PLAYER_POWER_UP);
            return 0;
        case PLAYER_CLOSING: return go_on_closing(player);
        case PLAYER_JOINING: return go_on_joining(player);
        case PLAYER_CATCHING_UP:
        case PLAYER_PLAYING: return go_on_with_list(player);
        default: return PLAYER_LONGEST_WAIT_MS;
    }
}

bool player_is_over(const struct player *player)
{
    return player->state == PLAYER_RESTING;
}

uint16_t player_pulse_ms(const struct player_kind *kind)
{
    const char *at = kind->pulse_ms;
    uint16_t ms = 0;
    while (is_digit(*at)) ms = (uint16_t)(ms * 10u + (uint8_t)(*at++ - '0'));
    while (*at != '\0') if (*at++ > '0') return (uint16_t)(ms + 1);
    return ms;
}

/* ---- The log ---- */

struct log {
    void (*put)(void *place, char letter);
    void *place;
};

static void put_word(const struct log *log, const char *word)
{
    for (; FLASH_LETTER(word) != '\0'; word++) log->put(log->place, FLASH_LETTER(word));
}

static void put_number(const struct log *log, uint32_t number, uint8_t least_digits)
{
    char digits[10];
    uint8_t count = 0;
    do {
        digits[count++] = (char)('0' + number % 10);
        number /= 10;
    } while (number > 0 || count < least_digits);
    while (count > 0) log->put(log->place, digits[--count]);
}

static void put_hash(const struct log *log, const struct player_list *list)
{
    uint8_t i;
    for (i = 0; list && i < PLAYER_HASH_TEXT; i++)
        log->put(log->place, hex_digit((i & 1 ? list->digest[i >> 1] : list->digest[i >> 1] >> 4) & 15));
}

/* Whose log it is, as the rows of the list say; without any there is no name. */
static void put_controller(const struct log *log, const struct player_list *list)
{
    const char *letter = list && list->most_output > 0 ? list->controller : "";
    while (*letter != '\0') log->put(log->place, *letter++);
}

static void put_do(const struct log *log, enum player_do what)
{
    static const char words[][6] FLASH = {"open", "close", "boot", "reset", "rest"};
    put_word(log, words[what]);
}

static void put_why(const struct log *log, const struct player_event *event)
{
    static const char words[][43] FLASH = {
        "", "list", "power-up", "join", "guard", "clock", "new list", "the list begins at ", "the list has ended: a new one is needed",
        "the clock is not set", "there is no list", "the list is not what was checked"
    };
    put_word(log, words[event->why]);
    if (event->why == PLAYER_NOT_BEGUN) put_number(log, event->list->begins, 1);
}

static void put_pulse(const struct log *log, const struct player_event *event)
{
    const char *pulse = event->kind ? event->kind->pulse_ms : "";
    if (event->kind && event->kind->is_latching) put_word(log, event->what == PLAYER_OPEN ? POSITIVE : NEGATIVE);
    log->put(log->place, ',');
    while (*pulse != '\0') log->put(log->place, *pulse++);
}

void player_log_header(void (*put)(void *place, char letter), void *place)
{
    struct log log = {put, place};
    put_word(&log, LOG_HEADER);
}

void player_log(const struct player_event *event, void (*put)(void *place, char letter), void *place)
{
    struct log log = {put, place};
    put_number(&log, event->at.s, 1);
    put(place, '.');
    put_number(&log, event->at.ms, 3);
    put(place, ',');
    put_controller(&log, event->list);
    put(place, ',');
    if (event->output > 0) put_number(&log, event->output, 1);
    put(place, ',');
    put_do(&log, event->what);
    put(place, ',');
    put_pulse(&log, event);
    put(place, ',');
    put_why(&log, event);
    put(place, ',');
    if (event->opening > 0) put_number(&log, event->opening, 1);
    put(place, ',');
    put_hash(&log, event->list);
}
