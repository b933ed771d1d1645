// Expands an iCalendar file with KCalendarCore, which takes a TZID for the name of a zone of the system's data, where there is one.
#include <KCalendarCore/Event>
#include <KCalendarCore/ICalFormat>
#include <KCalendarCore/MemoryCalendar>
#include <KCalendarCore/OccurrenceIterator>
#include <QCoreApplication>
#include <QFile>
#include <QTimeZone>
#include <algorithm>
#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

#include <kcalendarcore_version.h>

using namespace KCalendarCore;

static QDateTime instant(const std::string &text)
{
    const QDateTime at = QDateTime::fromString(QString::fromStdString(text), Qt::ISODate);
    if (!at.isValid()) throw std::runtime_error(text + " is not an instant such as 2026-04-01T00:00:00Z");
    return at.toUTC();
}

static std::string stamp(const QDateTime &at)
{
    return at.toUTC().toString(QStringLiteral("yyyyMMdd'T'HHmmss'Z'")).toStdString();
}

// What it reads over: it adds what is missing, and leaves out what it does not understand.
static void refuseSilentMistakes(const QByteArray &text, const Event::List &events)
{
    if (!text.startsWith("BEGIN:VCALENDAR\r\n") || !text.endsWith("\r\nEND:VCALENDAR\r\n")) throw std::runtime_error("no VCALENDAR");
    for (const char *name : {"\r\nBEGIN:VEVENT\r\n", "\r\nUID:", "\r\nDTSTAMP:"}) {
        if (text.count(name) != events.count()) throw std::runtime_error("an event too many or too few, or without UID or DTSTAMP");
    }
    if (text.count("\r\nRRULE:FREQ=YEARLY") + text.count("\r\nRRULE:FREQ=MONTHLY") + text.count("\r\nRRULE:FREQ=WEEKLY") + text.count("\r\nRRULE:FREQ=DAILY")
        != text.count("\r\nRRULE:")) throw std::runtime_error("a rule without a frequency");
    for (const auto &line : text.split('\n')) {
        if (!line.contains(':') && !line.startsWith(' ') && !line.isEmpty()) throw std::runtime_error("a line without a value");
    }
    for (const auto &event : events) {
        if (!event->dtStart().isValid() || !event->dtEnd().isValid()) throw std::runtime_error("an event without a time");
        const QByteArray zone = event->dtStart().timeZone().id();
        if (event->dtStart().timeSpec() == Qt::LocalTime) throw std::runtime_error("a zone that is not known");
        if (event->dtStart().timeSpec() == Qt::TimeZone && !zone.startsWith("UTC") && !text.contains("\r\nTZID:" + zone + "\r\n")) throw std::runtime_error("no VTIMEZONE called " + zone.toStdString());
    }
}

static std::vector<std::string> expand(const std::string &path, const std::string &from, const std::string &until)
{
    const QDateTime first = instant(from), last = instant(until);
    QFile file(QString::fromStdString(path));
    if (!file.open(QIODevice::ReadOnly)) throw std::runtime_error("cannot be opened");
    const QByteArray text = file.readAll();
    const auto calendar = MemoryCalendar::Ptr(new MemoryCalendar(QTimeZone::utc()));
    if (!ICalFormat().fromRawString(calendar, text)) throw std::runtime_error("does not parse");
    refuseSilentMistakes(text, calendar->rawEvents());
    std::vector<std::string> lines;
    for (const auto &event : calendar->rawEvents()) {
        const auto uid = event->uid().toStdString();
        const auto add = [&](const QDateTime &start) {
            if (start >= first && start < last) lines.push_back(stamp(start) + " " + stamp(event->endDateForStart(start)) + " " + uid);
        };
        if (!event->recurs()) add(event->dtStart());
        else for (const auto &start : event->recurrence()->timesInInterval(first, last)) add(start);
    }
    std::sort(lines.begin(), lines.end());
    return lines;
}

static bool answer(const std::vector<std::string> &job, bool inList)
{
    try {
        if (job.size() != 3) throw std::runtime_error("expand FILE FROM UNTIL");
        for (const auto &line : expand(job[0], job[1], job[2])) std::cout << line << '\n';
        if (inList) std::cout << "end\n";
        return true;
    } catch (const std::exception &mistake) {
        std::cerr << (job.empty() ? "" : job[0]) << ": " << mistake.what() << '\n';
        if (inList) std::cout << "refused\n";
        return false;
    }
}

int main(int count, char **arguments)
{
    QCoreApplication application(count, arguments);
    const std::vector<std::string> given(arguments + 1, arguments + count);
    if (given == std::vector<std::string>{"--version"}) {
        std::cout << "KCalendarCore " << KCALENDARCORE_VERSION_STRING << '\n';
        return 0;
    }
    if (given != std::vector<std::string>{"-"}) return answer(given, false) ? 0 : 1;
    bool all = true;
    for (std::string line; std::getline(std::cin, line);) {
        std::vector<std::string> job;
        for (size_t at = 0, tab = 0; tab != std::string::npos; at = tab + 1) {
            tab = line.find('\t', at);
            job.push_back(line.substr(at, tab - at));
        }
        all &= answer(job, true);
    }
    return all ? 0 : 1;
}
