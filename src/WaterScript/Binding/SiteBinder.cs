using System.Collections.Immutable;
using NodaTime;
using WaterScript.Binding.Validation;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Trees to model: reads the parts of a site in the order in which they need one another.</summary>
internal static class SiteBinder
{
    /// <summary>The site; null, and reported, when there is none.</summary>
    public static Site? Bind(ImmutableArray<FileNode> files, Scope scope)
    {
        var declarations = new Declarations(files, scope);
        LetBinder.Bind(declarations.All<LetNode>(), scope);
        NamedDaysBinder.Bind(declarations.All<NamedDaysNode>(), scope);
        if (SiteBlock(declarations, files, scope) is not { } block) return null;
        var hasPosition = block.Has(Schema.Site.Location) || scope.HasMisreadIn(new Location(block.Source, block.Node.Span));
        var tariffs = new TariffBinder(declarations, scope);
        tariffs.Bind();
        var hardware = new HardwareBinder(declarations, tariffs.Tariffs, hasPosition, scope);
        hardware.Bind();
        var ground = new GroundBinder(declarations, scope);
        ground.Bind();
        var zones = new ZoneBinder(declarations, hardware, ground, scope);
        zones.BindZones();
        var lists = new ZoneListBinder(declarations.All<GroupNode>(), zones.Zones, scope);
        var devices = zones.BindDevices(lists);
        var steps = new StepBinder(declarations.All<SequenceNode>(), lists, devices, new AmountValidator(zones.Misread, scope),
            new AutoCycleValidator(zones.Misread, scope), scope);
        var holds = new HoldBinder(lists, scope);
        var restrictions = new RestrictionBinder(lists, hasPosition, scope);
        ImmutableArray<Restriction> bound = [.. declarations.All<RestrictionNode>().Select(restrictions.Bind)];
        var schedules = new KeepBinder(bound, scope).Bind(declarations,
            Schedules(declarations, new ScheduleBinder(steps, ground.Scales, hasPosition, scope), scope));
        var site = new Site
        {
            Name = block.Name.Text,
            Label = block.Label,
            Origin = block.Origin,
            TimeZone = block.Get(Schema.Site.TimeZone) ?? DateTimeZone.Utc,
            Effective = block.Get(Schema.Site.Effective) ?? new LocalDate(2000, 1, 1),
            Position = block.Get(Schema.Site.Location),
            Scale = ground.Scales.Use(block.Get(Schema.Site.Scale), block.Source) is { } scale
                ? new ScaleUse(block.Find(Schema.Site.Scale)!.ValueOrigin, scale.Name, null)
                : null,
            Tariffs = [.. tariffs.Tariffs.Things],
            Supplies = [.. hardware.Supplies.Things],
            Controllers = [.. hardware.Controllers.Things],
            Valves = [.. hardware.Valves.Things],
            Devices = devices,
            Zones = [.. zones.Zones.Things],
            Soils = [.. ground.Soils.Things],
            Plants = [.. ground.Plants.Things],
            Climate = ground.Climate,
            Scales = [.. ground.Scales.Things],
            Restrictions = bound,
            Holds = [.. declarations.All<HoldNode>().Select(holds.Bind).OfType<Hold>()],
            ClosedSeasons = [.. declarations.All<ClosedNode>().Select(holds.Bind).OfType<ClosedSeason>()],
            Sequences = steps.Sequences,
            Schedules = schedules,
            Acceptances = new AcceptBinder(scope).Bind(files),
        };
        site = site with
        {
            Unused = [.. Named("tariff", tariffs.Tariffs.Unused), .. Unused(hardware, ground, lists, steps, scope)],
            SourceLength = files.Sum(file => (long)file.Source.Text.Length),
        };
        var isMisread = declarations.Blocks("climate").Any(climate => scope.HasFindingIn(climate.At(climate.Node.Span)))
            || declarations.HasUnknown || scope.HasMisreadIn(new Location(block.Source, block.Node.Span))
            || (block.Has(Schema.Site.Location) && site.Position is null);
        if (!isMisread) new ClimateValidator(site, scope).Report();
        return IsUsable(block) ? site : null;
    }

    /// <summary>Names that nothing has asked for, when all else is bound.</summary>
    private static IEnumerable<UnusedName> Unused(HardwareBinder hardware, GroundBinder ground, ZoneListBinder lists, StepBinder steps, Scope scope) =>
    [
        .. Named("valve", hardware.Valves.Unused),
        .. Named("soil", ground.Soils.Unused),
        .. Named("plants", ground.Plants.Unused),
        .. Named("scale", ground.Scales.Unused),
        .. Named("group", lists.UnusedGroups),
        .. Named("sequence", steps.UnusedSequences),
        .. Named("days", scope.NamedDays.Unused),
        .. Named("let", scope.Lets.Unused.Select(let => (let.Name, let.Origin))),
    ];

    private static IEnumerable<UnusedName> Named(string kind, IEnumerable<(string Name, Location Origin)> names) =>
        names.Select(unused => new UnusedName(kind, unused.Name, unused.Origin));

    /// <summary>Without its time zone and first date nothing can be said about any time.</summary>
    private static bool IsUsable(BoundBlock block) =>
        block.Get(Schema.Site.TimeZone) is not null && block.Get(Schema.Site.Effective) is not null;

    private static BoundBlock? SiteBlock(Declarations declarations, ImmutableArray<FileNode> files, Scope scope)
    {
        BoundBlock? found = null;
        foreach (var placed in declarations.Blocks("site"))
        {
            if (placed.Source != files[0].Source)
            {
                scope.Report(ReadingRules.Contradiction, placed.At(placed.Node.Kind.Span), "a site in an included file",
                    help: $"Move it into {files[0].Source.Path}, or do not include this file.");
            }

            found ??= BlockReader.Read(placed.Node, placed.Source, Schema.Site.Block, scope);
        }

        if (found is null && !declarations.HasUnknown && !scope.Findings.Any(finding => finding.Rule == ReadingRules.OverLimit))
        {
            scope.Report(
                ReadingRules.Missing,
                new Location(files[0].Source, new TextSpan(0, 0)),
                "there is no site in this file",
                help: "Begin with a block such as `site garden { timezone Europe/Lisbon; effective 2026-03-01 }`. A file that others include is checked " +
                    "with them.");
        }

        return found;
    }

    private static ImmutableArray<Schedule> Schedules(Declarations declarations, ScheduleBinder binder, Scope scope)
    {
        var schedules = new List<Schedule>();
        foreach (var placed in declarations.All<ScheduleNode>()) schedules.Add(binder.Bind(placed, schedules.Count));
        foreach (var placed in declarations.All<ExtraNode>())
        {
            if (binder.Extra(placed, schedules.Count) is { } extra) AddExtra(extra, schedules, scope);
        }

        var checkedSchedules = FormerNameValidator.Check(StartAfterValidator.Check(schedules, scope), scope);
        return new SkipBinder(scope).Bind(declarations.All<SkipNode>(), checkedSchedules);
    }

    private static void AddExtra(Schedule extra, List<Schedule> schedules, Scope scope)
    {
        if (schedules.Find(schedule => schedule.Name == extra.Name) is not { } first)
        {
            schedules.Add(extra);
            return;
        }

        scope.Report(Finding.At(ReadingRules.DuplicateName, extra.Origin, "two passes outside the calendar at one time", "the second") with
        {
            Others = [new Label(first.Origin, "the first")],
            Help = "Put their steps into one, or move one of them.",
        });
    }
}
