<?php
// Expands an iCalendar file with sabre/vobject, which takes a TZID for the name of a zone of PHP's own data.

require '/usr/share/php/Sabre/VObject/includes.php';

use Sabre\VObject\Reader;
use Sabre\VObject\RecurrenceIterator;

date_default_timezone_set('UTC');

function instant(string $text): int
{
    $date = DateTime::createFromFormat('!Y-m-d\TH:i:s\Z', $text);
    if ($date === false) throw new Exception("$text is not an instant such as 2026-04-01T00:00:00Z");
    return $date->getTimestamp();
}

// What it reads over, and what its own validation finds.
function refuseMistakes($calendar): void
{
    if ($calendar->name !== 'VCALENDAR') throw new Exception('no VCALENDAR');
    $zones = [];
    foreach ($calendar->select('VTIMEZONE') as $zone) $zones[] = (string)$zone->TZID;
    foreach ($calendar->validate() as $mistake) throw new Exception($mistake['message']);
    foreach ($calendar->select('VEVENT') as $event) {
        foreach (['UID', 'DTSTAMP', 'DTSTART'] as $name) {
            if (!isset($event->$name)) throw new Exception("an event without $name");
        }
        foreach ($event->validate() as $mistake) throw new Exception($mistake['message']);
        $zone = (string)$event->DTSTART['TZID'];
        if ($zone !== '' && !in_array($zone, $zones)) throw new Exception("no VTIMEZONE called $zone");
    }
}

function occurrences($event, int $from, int $until): array
{
    $lines = [];
    // It looks for the event of a UID among all; the files hold many, so each is given alone.
    for ($one = new RecurrenceIterator($event); $one->valid(); $one->next()) {
        $start = $one->getDtStart()->getTimestamp();
        if ($start >= $until) break;
        if ($start >= $from) $lines[] = gmdate('Ymd\THis\Z', $start) . ' ' . gmdate('Ymd\THis\Z', $one->getDtEnd()->getTimestamp()) . ' ' . $event->UID;
    }
    return $lines;
}

function expand(array $job): array
{
    [$path, $from, $until] = $job;
    $calendar = Reader::read(file_get_contents($path));
    refuseMistakes($calendar);
    $lines = [];
    foreach ($calendar->select('VEVENT') as $event) array_push($lines, ...occurrences($event, instant($from), instant($until)));
    sort($lines, SORT_STRING);
    return $lines;
}

function answer(array $job, bool $inList): bool
{
    try {
        $lines = expand($job);
    } catch (Throwable $mistake) {
        fwrite(STDERR, implode(' ', $job) . ": {$mistake->getMessage()}\n");
        if ($inList) echo "refused\n";
        return false;
    }
    if ($inList) $lines[] = 'end';
    if ($lines) echo implode("\n", $lines), "\n";
    return true;
}

$arguments = array_slice($argv, 1);
if ($arguments === ['--version']) {
    echo 'sabre/vobject ', Sabre\VObject\Version::VERSION, ' with PHP ', PHP_VERSION, ' and zone data ', timezone_version_get(), "\n";
    exit(0);
}

$inList = $arguments === ['-'];
$jobs = $inList ? array_map(fn($line) => explode("\t", rtrim($line, "\n")), file('php://stdin')) : [$arguments];
$isGood = true;
foreach ($jobs as $job) $isGood = answer($job, $inList) && $isGood;
exit($isGood ? 0 : 1);
