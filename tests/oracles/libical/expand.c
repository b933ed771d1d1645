/* Expands an iCalendar file with libical, which reads TZIDs by the VTIMEZONEs of the file. */
#define _DEFAULT_SOURCE
#include <libical/ical.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

struct lines {
    char **items;
    size_t count, room;
};

struct expansion {
    time_t from, until;
    const char *uid;
    struct lines *lines;
};

static void *must(void *memory)
{
    if (memory == NULL) {
        fputs("out of memory\n", stderr);
        exit(2);
    }
    return memory;
}

static void add(struct lines *lines, const char *text)
{
    if (lines->count == lines->room) {
        lines->room = lines->room * 2 + 64;
        lines->items = must(realloc(lines->items, lines->room * sizeof *lines->items));
    }
    lines->items[lines->count++] = must(strdup(text));
}

static void clear(struct lines *lines)
{
    for (size_t i = 0; i < lines->count; i++) free(lines->items[i]);
    free(lines->items);
    *lines = (struct lines){0};
}

static int by_bytes(const void *left, const void *right)
{
    return strcmp(*(char *const *)left, *(char *const *)right);
}

static void write_stamp(char *into, size_t size, time_t instant)
{
    struct tm parts;
    gmtime_r(&instant, &parts);
    strftime(into, size, "%Y%m%dT%H%M%SZ", &parts);
}

static void on_occurrence(icalcomponent *event, struct icaltime_span *span, void *data)
{
    (void)event;
    struct expansion *expansion = data;
    char start[32], end[32], line[512];
    if (span->start < expansion->from || span->start >= expansion->until) return;
    write_stamp(start, sizeof start, span->start);
    write_stamp(end, sizeof end, span->end);
    snprintf(line, sizeof line, "%s %s %s", start, end, expansion->uid);
    add(expansion->lines, line);
}

static char *read_whole(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) return NULL;
    size_t length = 0, room = 1 << 16;
    char *text = must(malloc(room));
    for (size_t read; (read = fread(text + length, 1, room - length - 1, file)) > 0; length += read) {
        if (length + read + 1 == room) text = must(realloc(text, room *= 2));
    }
    fclose(file);
    text[length] = '\0';
    return text;
}

/* A TZID that the file does not define would be read as a floating time. */
static bool zones_are_known(icalcomponent *event, icalcomponent *calendar)
{
    for (icalproperty *property = icalcomponent_get_first_property(event, ICAL_ANY_PROPERTY); property != NULL;
         property = icalcomponent_get_next_property(event, ICAL_ANY_PROPERTY)) {
        const char *zone = icalproperty_get_parameter_as_string(property, "TZID");
        if (zone != NULL && icalcomponent_get_timezone(calendar, zone) == NULL) return false;
    }
    return true;
}

/* Reads 2026-04-01T00:00:00Z, which in iCalendar has neither hyphens nor colons. */
static struct icaltimetype read_instant(const char *text)
{
    char plain[32];
    size_t length = 0;
    for (; *text != '\0' && length < sizeof plain - 1; text++) {
        if (*text != '-' && *text != ':') plain[length++] = *text;
    }
    plain[length] = '\0';
    return icaltime_from_string(plain);
}

/* NULL, or why the file is refused. */
static const char *expand(const char *path, const char *from, const char *until, struct lines *lines)
{
    struct icaltimetype first = read_instant(from), last = read_instant(until);
    if (icaltime_is_null_time(first) || icaltime_is_null_time(last)) return "no instants";
    char *text = read_whole(path);
    if (text == NULL) return "cannot be opened";
    icalcomponent *calendar = icalparser_parse_string(text);
    free(text);
    const char *why = NULL;
    if (calendar == NULL || icalcomponent_isa(calendar) != ICAL_VCALENDAR_COMPONENT) why = "no VCALENDAR";
    else if (icalcomponent_count_errors(calendar) > 0) why = "does not parse";
    else if (!icalrestriction_check(calendar)) why = "breaks a restriction of RFC 5545";
    for (icalcomponent *event = why != NULL ? NULL : icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT); event != NULL && why == NULL;
         event = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT)) {
        struct expansion expansion = {icaltime_as_timet(first), icaltime_as_timet(last), icalcomponent_get_uid(event), lines};
        if (expansion.uid == NULL) why = "an event without UID";
        else if (icalcomponent_get_first_property(event, ICAL_DTSTAMP_PROPERTY) == NULL) why = "an event without DTSTAMP";
        else if (icaltime_is_null_time(icalcomponent_get_dtstart(event))) why = "an event without DTSTART";
        else if (!zones_are_known(event, calendar)) why = "a TZID without VTIMEZONE";
        else icalcomponent_foreach_recurrence(event, first, last, on_occurrence, &expansion);
    }
    if (calendar != NULL) icalcomponent_free(calendar);
    if (lines->count > 0) qsort(lines->items, lines->count, sizeof *lines->items, by_bytes);
    return why;
}

/* Prints what a file holds, and in a list a last line that says whether it was read. */
static bool answer(const char *path, const char *from, const char *until, bool in_list)
{
    struct lines lines = {0};
    const char *why = expand(path, from, until, &lines);
    if (why != NULL) fprintf(stderr, "%s: %s\n", path, why);
    for (size_t i = 0; why == NULL && i < lines.count; i++) puts(lines.items[i]);
    if (in_list) puts(why == NULL ? "end" : "refused");
    clear(&lines);
    return why == NULL;
}

int main(int count, char **arguments)
{
    icalerror_set_errors_are_fatal(0);
    if (count == 2 && strcmp(arguments[1], "--version") == 0) {
        puts("libical " ICAL_VERSION);
        return 0;
    }
    if (count == 4) return answer(arguments[1], arguments[2], arguments[3], false) ? 0 : 1;
    if (count != 2 || strcmp(arguments[1], "-") != 0) {
        fputs("expand FILE FROM UNTIL\n", stderr);
        return 2;
    }

    bool all = true;
    char *line = NULL;
    size_t room = 0;
    while (getline(&line, &room, stdin) > 0) {
        char *rest = line;
        char *path = strsep(&rest, "\t\n"), *from = strsep(&rest, "\t\n"), *until = strsep(&rest, "\t\n");
        if (until == NULL) return 2;
        all &= answer(path, from, until, true);
    }
    free(line);
    return all ? 0 : 1;
}
