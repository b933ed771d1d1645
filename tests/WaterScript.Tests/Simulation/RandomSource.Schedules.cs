namespace WaterScript.Tests.Simulation;

/// <content>Schedules: their days, their starts, and what holds them.</content>
internal sealed partial class RandomSource
{
    private void WriteSchedule(string name)
    {
        Add($"schedule {name} {{");
        var follows = _calendars.Count > 0 && Chance(30);
        if (!follows || Chance(30)) WriteDayRule();
        if (Chance(40)) Add($"  from {Season()}");
        while (Chance(25)) Add($"  except {Pick(DayList(), $"every {_random.Next(2, 4)} weeks on {WeekdayList()}{Anchor()}",
            $"every {_random.Next(2, 9)} days{Anchor()}")}");
        if (follows)
        {
            Add($"  start after {Pick(_calendars)}{(Chance(60) ? $" + {Seconds(1, 7200)}" : "")}");
            if (Chance(20)) Add($"  start after {Pick(_calendars)} + {Seconds(1, 7200)}");
            if (Chance(25)) Add($"  start at {Moment()}{(Chance(30) ? $" on {DayList()}" : "")}");
            if (Chance(20)) Add($"  repeat every {Seconds(60, 7200)} for {_random.Next(1, 5)} passes");
        }
        else
            WriteStarts();

        if (Chance(15)) Add($"  cut off at {Moment()}{(Chance(30) ? " next day" : "")}");
        if (_scales.Count > 0 && Chance(20)) Add($"  scale {Pick(_scales)}");
        else if (Chance(10)) Add($"  scale {Percent()}");
        foreach (var rule in _rules.Where(_ => More(35)))
        {
            Add($"  keep to {rule}");
            _keptBySome.Add(rule);
        }

        Add("  steps {");
        WriteSteps("    ", depth: 0);
        Add("  }");
        Add("}");
        _calendars.Add(name);
    }

    private void WriteDayRule()
    {
        switch (_random.Next(6))
        {
            case 0:
                Add("  every day");
                break;
            case 1:
                Add($"  every {_random.Next(2, 9)} days");
                break;
            case 2:
                Add($"  every {_random.Next(2, 4)} weeks on {WeekdayList()}");
                break;
            default:
                do Add($"  on {DayList()}");
                while (Chance(30));
                break;
        }
    }

    private string DayList()
    {
        var text = Days();
        while (Chance(30)) text += ", " + Days();
        return text;
    }

    private string Days() => _hasNamedDays && More(15) ? "off-days" : _random.Next(9) switch
    {
        0 => Pick("odd days", "even days"),
        1 => "days 1, 15, 29, 31 of month",
        2 => $"{Pick(Nths)} {Pick(DayNames)} of month",
        3 => "last day of month",
        4 => Iso(_turn.PlusDays(_random.Next(-5, 6))),
        5 => Pick(DayOfYear(-3, 4), "29 feb", "last feb", "31 dec"),
        6 => $"{DayOfYear(-10, 0)} to {DayOfYear(1, 10)}",
        7 => $"{Pick(DayNames)} to {Pick(DayNames)}",
        _ => WeekdayList(),
    };

    private string Anchor() => More(40) ? $" from {OneOf(Iso(From.PlusDays(_more.Next(-20, 20))), "sown", "sown - 3 days")}" : "";

    private void WriteNamedDays()
    {
        var days = OneOf("sat, sun", "odd days, 1 may", "23 apr to 28 apr", "first mon of month", "days 1, 15 of month, last day of month");
        Add($"days off-days \"Days off\" = {days}");
        _hasNamedDays = true;
    }

    /// <summary>Town rules that schedules may keep to.</summary>
    private void WriteRestrictions()
    {
        var rules = _more.Next(1, 4);
        for (var index = 0; index < rules; index++)
        {
            var lines = new List<string>();
            if (More(40)) lines.Add($"for {string.Join(", ", _zones.Take(_more.Next(1, 3)))}");
            if (More(25)) lines.Add($"from {Iso(From.PlusDays(_more.Next(-3, 6)))} to {Iso(From.PlusDays(_more.Next(8, 30)))}");
            if (More(35)) lines.Add(OneOf("allow on odd days", "allow on mon, wed to fri", "except sun", "except every 3 days from 2026-01-01"));
            if (More(45)) lines.Add($"allow between {OneOf("20:00 and 09:00", "05:00 and 07:30", "sunset and sunrise", "00:00 and 12:00")}");
            if (More(30)) lines.Add($"week starts {OneOf("sun", "sat", "mon")}");
            if (More(50)) lines.Add($"at most {_more.Next(1, 5)} days a week{OneOf("", " per zone")}");
            if (More(35)) lines.Add($"at most {OneOf("20 min", "90 s", "2 h")} a day{OneOf("", " per zone")}");
            if (More(20)) lines.Add($"at most {OneOf("3 mm", "11 mm")} a day per zone");
            if (More(30)) lines.Add($"at most {OneOf("90 L", "400 L", "7.3 L")} a day{OneOf("", " per zone")}");
            if (More(25)) lines.Add($"exempt {_zones[^1]}{OneOf("", $" from {Iso(From.PlusDays(5))} for 4 days")}");
            Add($"restriction rule-{index} {{ {string.Join("; ", lines)} }}");
            _rules.Add($"rule-{index}");
        }
    }

    private void WriteSkip()
    {
        var first = _turn.PlusDays(_more.Next(-5, 6));
        var days = OneOf(Iso(first), $"{Iso(first)} to {Iso(first.PlusDays(_more.Next(1, 4)))}", "sown + 3 weeks", $"{Iso(first)}, {Iso(first.PlusDays(9))}");
        Add($"skip {OneOf([.. _calendars])} on {days} because \"a party\"");
    }

    private string WeekdayList() => Pick(DayNames) + (Chance(50) ? $", {Pick(DayNames)}" : "");

    private string Season() => _random.Next(7) switch
    {
        0 => Iso(From.PlusDays(_random.Next(-20, 10))),
        1 => $"{Iso(From.PlusDays(_random.Next(-20, 5)))} to {Iso(From.PlusDays(_random.Next(6, 40)))}",
        2 => $"sown for {_random.Next(1, 5)} weeks",
        3 => $"sown + 1 week to sown + {_random.Next(8, 30)} days",
        4 => $"{DayOfYear(-30, 5)} for {_random.Next(1, 6)} weeks",
        5 => $"{Pick("29 feb", "1 mar", "15 nov")} to {Pick("last feb", "10 oct", "30 apr")}",
        _ => $"{DayOfYear(-30, 5)} to {DayOfYear(6, 60)}",
    };

    private void WriteStarts()
    {
        var untils = Chance(25);
        var lines = _random.Next(1, 3);
        for (var index = 0; index < lines; index++)
        {
            var finishes = !untils && Chance(25);
            var on = Chance(30) ? $" on {DayList()}" : "";
            var moments = untils ? Pick("05:10", "sunrise", "sunrise - 20 min", "02:30") : Moment();
            if (!finishes && Chance(25)) moments += ", " + (untils ? "06:40" : Moment());
            Add($"  {(finishes ? "finish by" : "start at")} {moments}{on}");
        }

        if (untils) Add($"  repeat every {Pick("8 min", "45 min", "2 h", "13 min 20 s")} until "
            + $"{Pick("07:00", "sunrise + 3 h", "sunset - 1 h", "11:59:30", "24:00", "02:30 next day", "sunrise next day")}");
        else if (Chance(35)) Add($"  repeat every {Seconds(60, 9000)} for {_random.Next(1, 7)} passes");
    }

    private string Moment() => _random.Next(4) switch
    {
        0 => Pick("sunrise", "sunset"),
        1 => $"{Pick("sunrise", "sunset")} {Pick("+", "-")} {Seconds(1, 20000)}",
        _ => Clock(),
    };

    /// <summary>Half of them fall into the hours that clock changes skip or double.</summary>
    private string Clock() => Pick("00:00", "00:30", "01:30", "02:00", "02:15:30", "02:30", "03:30", "05:00", "06:00", "21:45", "23:59:59");

    private void WriteManual()
    {
        Add("schedule by-hand {");
        Add("  manual");
        Add("  steps { water all for 90 s }");
        Add("}");
    }

    private void WriteHold()
    {
        var zones = Chance(50) ? $"{Pick(_zones)} " : "";
        var from = From.PlusDays(_random.Next(0, 14));
        var time = Chance(50) ? $" {Clock()}" : "";
        var end = Pick($"for {Seconds(3600, 400000)}", $"to {Iso(from.PlusDays(_random.Next(1, 6)))}", $"to {Iso(from.PlusDays(_random.Next(1, 6)))} {Clock()}",
            "until lifted");
        Add($"hold {zones}from {Iso(from)}{time} {end} because \"kept dry\"");
    }
}
