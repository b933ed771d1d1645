/**
 * The statements of WaterScript. Every decision is made by the next token alone: the generated parser holds no call of
 * adaptive prediction, which the tests keep so. What makes that possible:
 *
 *  - The value of a property is a row of tokens to the end of the statement; whoever knows its type reads it.
 *  - A list of days joins at its outermost level only: `of month` closes `days 1, 15`.
 *  - Every body has an alternative for a statement that it does not know, so that the rest is still read.
 *  - What stands before a `{` is a rule of its own, so that a mistake there does not take the body with it.
 *
 * Rules return the nodes of the tree; there is no other tree. A rule that could not be read returns null.
 */
parser grammar WaterScriptParser;

@header {
using System.Collections.Immutable;
}

options {
  tokenVocab = WaterScriptLexer;
  superClass = TreeBuilder;
}

// ---------------------------------------------------------------- The file

/** A whole file: statements, each of which ends with its line. */
file returns [List<StatementNode> nodes = new()]
  : topLine[$nodes] ( NEWLINE topLine[$nodes] )* EOF
  ;

topLine[List<StatementNode> nodes]
  : ( s=topStatement { Add($nodes, $s.node); } )? { EndTopStatement(); } bareInFile[$nodes]
  | block[$nodes]
  ;

/** What may stand at the top of a file. */
topStatement returns [StatementNode node]
  : a=includeStatement   { $node = $a.node; }
  | b=letStatement       { $node = $b.node; }
  | c=groupStatement     { $node = $c.node; }
  | d=holdStatement      { $node = $d.node; }
  | e=closedStatement    { $node = $e.node; }
  | f=extraStatement     { $node = $f.node; }
  | g=acceptStatement    { $node = $g.node; }
  | h=sequenceStatement  { $node = $h.node; }
  | i=restriction        { $node = $i.node; }
  | j=schedule           { $node = $j.node; }
  | k=skipStatement      { $node = $k.node; }
  | l=daysStatement      { $node = $l.node; }
  | m=keepStatement      { $node = $m.node; }
  ;

/** `include "zones.water"` */
includeStatement returns [StatementNode node]
  : INCLUDE p=label
    { if (Whole) $node = new IncludeNode(SpanOf($ctx), $p.node); }
  ;

/** `let settle = 5 min`, `let sown = 2026-09-09`, `let thinned = sown + 3 weeks` */
letStatement returns [StatementNode node]
  : LET n=newName EQUALS r=row
    { if (Whole) $node = new LetNode(SpanOf($ctx), $n.node, $r.node); }
  ;

/** `group front = lawn + beds, hedge` */
groupStatement returns [StatementNode node]
  : GROUP n=newName l=label? EQUALS z=zones
    { if (Whole) $node = new GroupNode(SpanOf($ctx), $n.node, $l.ctx?.node, $z.node); }
  ;

/** `hold [ZONES] from DATE [TIME] for DURATION because "…"`, or `to DATE [TIME]`, or `until lifted`. */
holdStatement returns [StatementNode node]
  locals [bool lifted]
  : HOLD z=holdZones? FROM f=date ft=moment?
    ( FOR d=duration | TO t=date tt=moment? | UNTIL LIFTED { $lifted = true; } )
    BECAUSE b=label
    {
      if (Whole) $node = new HoldNode(SpanOf($ctx), $z.ctx?.node, $f.node, $ft.ctx?.node, $d.ctx?.node, $t.ctx?.node, $tt.ctx?.node, $lifted, $b.node);
    }
  ;

/** The zones of a hold; the first of them is not called `from`. */
holdZones returns [ZoneListNode node]
  locals [ZoneListBuilder list = new()]
  : n=holdName { $list.Add($n.node); } moreZones[$list]
    { if (Whole) $node = $list.ToNode(SpanOf($ctx)); }
  ;

/** `closed from 20 oct to 5 apr because "drained"` */
closedStatement returns [StatementNode node]
  : CLOSED FROM f=date TO t=date BECAUSE b=label
    { if (Whole) $node = new ClosedNode(SpanOf($ctx), $f.node, $t.node, $b.node); }
  ;

/** `skip evening, dawn on 2026-07-04 because "party"` */
skipStatement returns [StatementNode node]
  locals [List<NameNode> schedules = new()]
  : LEAVE_OUT a=name { Add($schedules, $a.node); } ( COMMA b=name { Add($schedules, $b.node); } )* ON d=days BECAUSE w=label
    { if (Whole) $node = new SkipNode(SpanOf($ctx), [.. $schedules], [.. $d.nodes], $w.node); }
  ;

/** `keep to stage-2` */
keepStatement returns [StatementNode node]
  : KEEP TO n=name
    { if (Whole) $node = new KeepNode(SpanOf($ctx), $n.node); }
  ;

/** `days holidays ["label"] = 2026-07-01 to 2026-08-15, 25 dec` */
daysStatement returns [StatementNode node]
  : DAYS n=newName l=label? EQUALS d=days
    { if (Whole) $node = new NamedDaysNode(SpanOf($ctx), $n.node, $l.ctx?.node, [.. $d.nodes]); }
  ;

/** `extra 2026-07-18 21:00 ["label"] because "new plants" { water herbs for 10 min }` */
extraStatement returns [StatementNode node]
  : h=extraHead b=steps
    { $node = $h.node is null ? null : $h.node with { Span = SpanOf($ctx), Steps = OnlySteps($b.list) }; }
  ;

extraHead returns [ExtraNode node]
  : EXTRA d=date t=moment l=label? BECAUSE b=label
    { if (Whole) $node = new ExtraNode(SpanOf($ctx), $d.node, $t.node, $l.ctx?.node, $b.node, []); }
  ;

/** `accept RULE because "reason" [until DATE]` */
acceptStatement returns [AcceptNode node]
  : ACCEPT r=name BECAUSE b=label ( UNTIL u=date )?
    { if (Whole) $node = new AcceptNode(SpanOf($ctx), $r.node, $b.node, $u.ctx?.node); }
  ;

/** `sequence NAME ["label"] { STEPS }` */
sequenceStatement returns [StatementNode node]
  : h=sequenceHead b=steps
    { if ($h.node is not null) $node = new SequenceNode(SpanOf($ctx), $h.node, $h.title, $b.list.Steps, $b.list.Accepts); }
  ;

sequenceHead returns [NameNode node, StringNode title]
  : SEQUENCE n=newName { $node = $n.node; } ( l=label { $title = $l.node; } )?
  ;

// ---------------------------------------------------------------- Description blocks

/**
 * A description: `zone lawn "Small lawn" { … }`. It begins with any token but the words of the statements above, so
 * that a kind that there is not is still read with its body.
 */
block[List<StatementNode> nodes]
  : h=blockHead
    ( b=body { Add($nodes, BlockOf($ctx, $h.ctx, $b.ctx)); EndTopStatement(); } bareInFile[$nodes]
    | { Add($nodes, BlockOf($ctx, $h.ctx, null)); EndTopStatement(); }
    )
  ;

blockHead
  : ~( INCLUDE | LET | GROUP | HOLD | CLOSED | EXTRA | ACCEPT | SEQUENCE | RESTRICTION | SCHEDULE | LEAVE_OUT | DAYS | KEEP | NEWLINE | LBRACE | RBRACE )
    ( ~( NEWLINE | LBRACE | RBRACE ) )*
  ;

body returns [List<StatementNode> nodes = new()]
  : LBRACE bodyLine[$nodes] ( NEWLINE bodyLine[$nodes] )* RBRACE
  ;

bodyLine[List<StatementNode> nodes]
  : ( a=acceptStatement { Add($nodes, $a.node); } )? { EndStatement(); } bareInDescription[$nodes]
  | property[$nodes]
  | misplaced[$nodes]
  ;

/** A property, `flow 18 L/min`, or a block inside the block, `power { … }`. */
property[List<StatementNode> nodes]
  : h=propertyHead
    ( b=body { Add($nodes, PropertyOf($ctx, $h.ctx, $b.ctx)); EndStatement(); } bareInDescription[$nodes]
    | { Add($nodes, PropertyOf($ctx, $h.ctx, null)); EndStatement(); }
    )
  ;

propertyHead
  : ~( INCLUDE | LET | GROUP | HOLD | CLOSED | EXTRA | ACCEPT | SEQUENCE | RESTRICTION | SCHEDULE | LEAVE_OUT | DAYS | KEEP | NEWLINE | LBRACE | RBRACE )
    ( ~( NEWLINE | LBRACE | RBRACE ) )*
  ;

// ---------------------------------------------------------------- Schedules

/** `schedule NAME ["label"] { … }` */
schedule returns [StatementNode node]
  : h=scheduleHead b=scheduleBody
    { if ($h.node is not null) $node = new ScheduleNode(SpanOf($ctx), $h.node, $h.title, [.. $b.nodes]); }
  ;

scheduleHead returns [NameNode node, StringNode title]
  : SCHEDULE n=newName { $node = $n.node; } ( l=label { $title = $l.node; } )?
  ;

scheduleBody returns [List<StatementNode> nodes = new()]
  : LBRACE scheduleLine[$nodes] ( NEWLINE scheduleLine[$nodes] )* RBRACE
  ;

scheduleLine[List<StatementNode> nodes]
  : ( s=scheduleStatement { Add($nodes, $s.node); } )? { EndStatement(); } bareInSchedule[$nodes]
  | unknownInSchedule[$nodes]
  ;

scheduleStatement returns [StatementNode node]
  : a=everyStatement  { $node = $a.node; }
  | b=onStatement     { $node = $b.node; }
  | MANUAL            { $node = new ManualNode(SpanOf($ctx)); }
  | c=fromStatement   { $node = $c.node; }
  | d=exceptStatement { $node = $d.node; }
  | e=startStatement  { $node = $e.node; }
  | f=finishStatement { $node = $f.node; }
  | g=repeatStatement { $node = $g.node; }
  | h=cutStatement    { $node = $h.node; }
  | i=scaleStatement  { $node = $i.node; }
  | j=noteStatement   { $node = $j.node; }
  | k=stepsStatement  { $node = $k.node; }
  | l=acceptStatement { $node = $l.node; }
  | m=formerlyStatement { $node = $m.node; }
  | n=keepStatement   { $node = $n.node; }
  ;

/** `every day`, `every 5 days`, `every 2 weeks on tue, thu` */
everyStatement returns [StatementNode node]
  : i=interval
    { if (Whole) $node = new EveryNode(SpanOf($ctx), $i.node); }
  ;

/** `on mon, wed to fri, odd days` */
onStatement returns [StatementNode node]
  : ON d=days
    { if (Whole) $node = new OnNode(SpanOf($ctx), [.. $d.nodes]); }
  ;

/** `from D`, `from D to D`, `from D for 3 weeks` */
fromStatement returns [StatementNode node]
  : FROM f=date ( TO t=date | FOR d=duration )?
    { if (Whole) $node = new FromNode(SpanOf($ctx), $f.node, $t.ctx?.node, $d.ctx?.node); }
  ;

/** `except DAYS`, `except every 2 weeks on fri from 2026-05-01` */
exceptStatement returns [StatementNode node]
  : EXCEPT ( i=interval ( FROM f=date )? { if (Whole) $node = new ExceptNode(SpanOf($ctx), [$i.node with { From = $f.ctx?.node }]); }
           | d=days                      { if (Whole) $node = new ExceptNode(SpanOf($ctx), [.. $d.nodes]); } )
  ;

/** `start at T, T [on DAYS]`, `start after OTHER [+ 10 min]` */
startStatement returns [StatementNode node]
  : START
    ( AT m=moments o=onDays?
      { if (Whole) $node = new StartAtNode(SpanOf($ctx), [.. $m.nodes], DaysOf($o.ctx?.nodes)); }
    | AFTER n=name ( PLUS d=duration )?
      { if (Whole) $node = new StartAfterNode(SpanOf($ctx), $n.node, $d.ctx?.node); }
    )
  ;

/** `finish by T [on DAYS]` */
finishStatement returns [StatementNode node]
  : FINISH BY m=moments o=onDays?
    { if (Whole) $node = new FinishByNode(SpanOf($ctx), [.. $m.nodes], DaysOf($o.ctx?.nodes)); }
  ;

/** `repeat every 45 min for 4 passes`, `repeat every 8 min until sunset - 30 min`, `repeat every 90 min until 04:00 next day` */
repeatStatement returns [StatementNode node]
  locals [bool next]
  : REPEAT EVERY e=duration
    ( FOR c=count ( PASS | PASSES ) | UNTIL u=moment ( nextDay { $next = true; } )? )
    { if (Whole) $node = new RepeatPassesNode(SpanOf($ctx), $e.node, $c.ctx?.node, $u.ctx?.node, $next); }
  ;

/** `cut off at T [next day]` */
cutStatement returns [StatementNode node]
  locals [bool next]
  : CUT OFF AT m=moment ( nextDay { $next = true; } )?
    { if (Whole) $node = new CutNode(SpanOf($ctx), $m.node, $next); }
  ;

/** `scale NAME`, `scale 80 %` */
scaleStatement returns [StatementNode node]
  : SCALE r=row
    { if (Whole) $node = new UseScaleNode(SpanOf($ctx), $r.node); }
  ;

/** `note "…"` */
noteStatement returns [StatementNode node]
  : NOTE t=label
    { if (Whole) $node = new NoteNode(SpanOf($ctx), $t.node); }
  ;

/** `formerly NAME` */
formerlyStatement returns [StatementNode node]
  : FORMERLY n=name
    { if (Whole) $node = new FormerlyNode(SpanOf($ctx), $n.node); }
  ;

/** `steps { … }` */
stepsStatement returns [StatementNode node]
  : stepsHead b=steps
    { $node = new StepsNode(SpanOf($ctx), OnlySteps($b.list)); }
  ;

stepsHead : STEPS ;

onDays returns [List<DayNode> nodes]
  : ON d=days { $nodes = $d.nodes; }
  ;

nextDay : NEXT DAY ;

// ---------------------------------------------------------------- Steps

/** The steps between braces. An `accept` may stand among those of a sequence. */
steps returns [StepList list = new()]
  : LBRACE stepLine[$list] ( NEWLINE stepLine[$list] )* RBRACE
  ;

stepLine[StepList list]
  : ( s=step[$list] | a=acceptStatement { $list.Add($a.node); } )? { EndStatement(); } bareInSteps[$list]
  | unknownInSteps[$list]
  ;

step[StepList list]
  : a=waterStep  { $list.Add($a.node); }
  | b=pauseStep  { $list.Add($b.node); }
  | c=runStep    { $list.Add($c.node); }
  | d=repeatStep[$list]
  | e=cycleStep[$list]
  ;

/** `water LIST for [exactly] DURATION` or `water LIST with [exactly] AMOUNT`; several by plus begin together; perhaps `through INJECTOR [for 12 min | with 2 L]` */
waterStep returns [StepNode node]
  locals [List<WaterNode> waters = new()]
  : WATER a=watering { Add($waters, $a.node); } ( PLUS b=watering { Add($waters, $b.node); } )* d=dose?
    { if (Whole) $node = WaterOf(SpanOf($ctx), $waters, $d.ctx?.node); }
  ;

watering returns [WaterNode node]
  locals [bool exact]
  : z=zones ( FOR ( EXACTLY { $exact = true; } )? d=duration | WITH ( EXACTLY { $exact = true; } )? w=duration )
    { if (Whole) $node = new WaterNode(SpanOf($ctx), $z.node, $d.ctx?.node, $w.ctx?.node) { IsExact = $exact }; }
  ;

/** `through feeder`, `through feeder for 12 min`, `through feeder with 2 L` */
dose returns [DoseNode node]
  : THROUGH i=name ( FOR d=duration | WITH w=duration )?
    { if (Whole) $node = new DoseNode(SpanOf($ctx), $i.node, $d.ctx?.node, $w.ctx?.node); }
  ;

/** `pause 2 min` */
pauseStep returns [StepNode node]
  : PAUSE d=duration
    { if (Whole) $node = new PauseNode(SpanOf($ctx), $d.node); }
  ;

/** `run SEQUENCE` */
runStep returns [StepNode node]
  : RUN n=name
    { if (Whole) $node = new RunNode(SpanOf($ctx), $n.node); }
  ;

/** `repeat 3 times { … }` */
repeatStep[StepList list]
  : h=repeatHead b=steps
    { $list.AddBlock($b.list, $h.node is null ? null : new RepeatStepsNode(SpanOf($ctx), $h.node, OnlySteps($b.list))); }
  ;

repeatHead returns [NumberNode node]
  : REPEAT c=count ( TIME | TIMES ) { if (Whole) $node = $c.node; }
  ;

/** `cycle 6 min soak 30 min { … }`, `cycle auto { … }` */
cycleStep[StepList list]
  : h=cycleHead b=steps
    { $list.AddBlock($b.list, $h.node is null ? null : $h.node with { Span = SpanOf($ctx), Steps = OnlySteps($b.list) }); }
  ;

cycleHead returns [CycleNode node]
  : CYCLE ( AUTO | c=duration SOAK s=duration )
    { if (Whole) $node = new CycleNode(SpanOf($ctx), $c.ctx?.node, $s.ctx?.node, []); }
  ;

// ---------------------------------------------------------------- Restrictions

/** `restriction NAME ["label"] { … }` */
restriction returns [StatementNode node]
  : h=restrictionHead b=restrictionBody
    { if ($h.node is not null) $node = new RestrictionNode(SpanOf($ctx), $h.node, $h.title, [.. $b.nodes]); }
  ;

restrictionHead returns [NameNode node, StringNode title]
  : RESTRICTION n=newName { $node = $n.node; } ( l=label { $title = $l.node; } )?
  ;

restrictionBody returns [List<StatementNode> nodes = new()]
  : LBRACE restrictionLine[$nodes] ( NEWLINE restrictionLine[$nodes] )* RBRACE
  ;

restrictionLine[List<StatementNode> nodes]
  : ( s=restrictionStatement { Add($nodes, $s.node); } )? { EndStatement(); } bareInRestriction[$nodes]
  | unknownInRestriction[$nodes]
  ;

restrictionStatement returns [StatementNode node]
  : a=forStatement    { $node = $a.node; }
  | b=fromStatement   { $node = $b.node; }
  | c=allowStatement  { $node = $c.node; }
  | d=exceptStatement { $node = $d.node; }
  | e=atMostStatement { $node = $e.node; }
  | f=exemptStatement { $node = $f.node; }
  | g=weekStatement   { $node = $g.node; }
  | h=acceptStatement { $node = $h.node; }
  ;

/** `for lawn, herbs` */
forStatement returns [StatementNode node]
  : FOR z=zones
    { if (Whole) $node = new ForZonesNode(SpanOf($ctx), $z.node); }
  ;

/** `allow on odd days`, `allow between 20:00 and 09:00` */
allowStatement returns [StatementNode node]
  : ALLOW
    ( ON d=days                          { if (Whole) $node = new AllowDaysNode(SpanOf($ctx), [.. $d.nodes]); }
    | BETWEEN f=moment AND t=moment      { if (Whole) $node = new AllowHoursNode(SpanOf($ctx), $f.node, $t.node); }
    )
  ;

/** `at most 3 days a week`, `at most 15 min a day per zone` */
atMostStatement returns [StatementNode node]
  : AT MOST r=row
    { if (Whole) $node = new AtMostNode(SpanOf($ctx), $r.node); }
  ;

/** `exempt vines`, `exempt lawn from sown for 30 days` */
exemptStatement returns [StatementNode node]
  : EXEMPT z=zones ( FROM f=date ( TO t=date | FOR d=duration )? )?
    { if (Whole) $node = new ExemptNode(SpanOf($ctx), $z.node, $f.ctx?.node, $t.ctx?.node, $d.ctx?.node); }
  ;

/** `week starts sun` */
weekStatement returns [StatementNode node]
  : WEEK STARTS w=weekday
    { if (Whole) $node = new WeekStartsNode(SpanOf($ctx), $w.node); }
  ;

// ---------------------------------------------------------------- Days, dates, moments

/** `every day`, `every 5 days`, `every 2 weeks on tue, thu` */
interval returns [IntervalNode node]
  locals [bool weeks]
  : EVERY c=count? ( DAY | DAYS | ( WEEK | WEEKS ) { $weeks = true; } ) o=onDays?
    { if (Whole) $node = new IntervalNode(SpanOf($ctx), $c.ctx?.node, $weeks, DaysOf($o.ctx?.nodes)); }
  ;

/** Days, joined by commas. */
days returns [List<DayNode> nodes = new()]
  : a=dayItem { Add($nodes, $a.node); } ( COMMA b=dayItem { Add($nodes, $b.node); } )*
  ;

/** One item of a list of days. */
dayItem returns [DayNode node]
  locals [int nth]
  : ( ODD { $nth = 1; } | EVEN ) DAYS
    { if (Whole) $node = new OddEvenNode(SpanOf($ctx), $nth == 1); }
  | m=monthDays
    { $node = $m.node; }
  | ( FIRST { $nth = 1; } | SECOND { $nth = 2; } | THIRD { $nth = 3; } | FOURTH { $nth = 4; } ) w=weekday ofMonth
    { if (Whole) $node = new NthWeekdayNode(SpanOf($ctx), $nth, $w.node); }
  | l=lastDay
    { $node = $l.node; }
  | f=plainDay o=offset? ( TO t=plainDate )?
    { if (Whole) $node = WordDay($ctx, $f.node, $o.ctx, $t.ctx?.node); }
  | d=numberedDay o=offset? ( TO t=plainDate )?
    { if (Whole) $node = new DateRangeNode(SpanOf($ctx), DateOf($d.node, $o.ctx), $t.ctx?.node); }
  ;

/** `days 1, 15 of month` */
monthDays returns [DayNode node]
  locals [List<NumberNode> numbers = new()]
  : DAYS a=count { Add($numbers, $a.node); } ( COMMA b=count { Add($numbers, $b.node); } )* ofMonth
    { if (Whole) $node = new MonthDaysNode(SpanOf($ctx), [.. $numbers]); }
  ;

/** `last day of month`, `last fri of month`, `last feb` */
lastDay returns [DayNode node]
  : LAST
    ( DAY ofMonth
      { if (Whole) $node = new LastDayNode(SpanOf($ctx)); }
    | w=word
      ( ofMonth
        { if (Whole) $node = new NthWeekdayNode(SpanOf($ctx), -1, WeekdayOf($w.node)); }
      | o=offset? ( TO t=plainDate )?
        { if (Whole) $node = new DateRangeNode(SpanOf($ctx), DateOf(LastOf($ctx, $w.node), $o.ctx), $t.ctx?.node); }
      )
    )
  ;

ofMonth : OF MONTH ;

/** A word where a day stands: `mon`, the name of a let, or a slip. */
plainDay returns [NameNode node]
  : w=word { $node = $w.node; }
  ;

/** A date: `2026-05-01`, `25 dec`, `last feb`, the name of a let; perhaps some days or weeks before or after it. */
date returns [DateNode node]
  : b=dateBase o=offset?
    { if (Whole) $node = DateOf($b.node, $o.ctx); }
  ;

/** The end of a range of days; a word there may also be a day of the week. */
plainDate returns [DateNode node]
  : d=date { $node = $d.node; }
  ;

dateBase returns [DateBaseNode node]
  : n=numberedDay { $node = $n.node; }
  | LAST w=word   { if (Whole) $node = LastOf($ctx, $w.node); }
  | w=word        { if (Whole) $node = new LetDateNode(SpanOf($ctx), $w.node.Text); }
  ;

numberedDay returns [DateBaseNode node]
  : DATE            { $node = new IsoDateNode(SpanOf($ctx), $ctx.Start.Text); }
  | c=count w=word  { if (Whole) $node = new MonthDayNode(SpanOf($ctx), $c.node, MonthOf($w.node)); }
  ;

/** `+ 2 weeks`, `- 30 min` */
offset returns [RowNode node, bool before]
  : ( PLUS | MINUS { $before = true; } ) d=duration
    { $node = $d.node; }
  ;

moments returns [List<MomentNode> nodes = new()]
  : a=moment { Add($nodes, $a.node); } ( COMMA b=moment { Add($nodes, $b.node); } )*
  ;

/** A moment of a day: `06:00`, `sunset + 30 min` */
moment returns [MomentNode node]
  : ( CLOCK | SUNRISE | SUNSET ) s=word? o=offset?
    { if (Whole) $node = new MomentNode(SpanOf($ctx), TokenOf($ctx.Start), $s.ctx?.node, $o.ctx?.node, $o.ctx?.before ?? false); }
  ;

weekday returns [NameNode node]
  : w=word { $node = WeekdayOf($w.node); }
  ;

// ---------------------------------------------------------------- Parts

/** Zones: a comma means *then* (or *and*), a plus means *together*. */
zones returns [ZoneListNode node]
  locals [ZoneListBuilder list = new()]
  : n=name { $list.Add($n.node); } moreZones[$list]
    { if (Whole) $node = $list.ToNode(SpanOf($ctx)); }
  ;

moreZones[ZoneListBuilder list]
  : ( COMMA a=name { $list.Add($a.node); } | PLUS b=name { $list.Join($b.node); } )*
  ;

/** One or more quantities, or the name of a let: `1 h 30 min`, `settle`. It ends before the next word of the language. */
duration returns [RowNode node]
  : ( NUMBER | WORD | PATH | PERCENT | GLUED | MALFORMED | OTHER | DAY | DAYS | WEEK | WEEKS )+
    { if (Whole) $node = RowOf($ctx); }
  ;

/** Tokens to the end of the statement. What may be one of them is written out wherever it stands: a rule would make an object for each token. */
row returns [RowNode node]
  : ( ~( NEWLINE | LBRACE | RBRACE ) )+ { $node = RowOf($ctx); }
  ;

count returns [NumberNode node]
  : NUMBER { $node = NumberOf($ctx.Start); }
  ;

label returns [StringNode node]
  : STRING { $node = StringOf($ctx.Start); }
  ;

/** A word that is no word of the language. */
word returns [NameNode node]
  : WORD { $node = NameOf($ctx.Start); }
  ;

/** A name where it is given. */
newName returns [NameNode node]
  : n=name { $node = GivenName($n.node); }
  ;

/** A name: every word of the language may be one. */
name returns [NameNode node]
  : ( FROM | nameButFrom ) { $node = NameOf($ctx.Start); }
  ;

holdName returns [NameNode node]
  : nameButFrom { $node = NameOf($ctx.Start); }
  ;

nameButFrom
  : INCLUDE | LET | GROUP | HOLD | CLOSED | EXTRA | ACCEPT | SEQUENCE | RESTRICTION | SCHEDULE | KEEP | LEAVE_OUT
  | EVERY | ON | MANUAL | EXCEPT | START | FINISH | REPEAT | CUT | SCALE | NOTE | FORMERLY | STEPS
  | WATER | PAUSE | CYCLE | RUN
  | FOR | ALLOW | AT | EXEMPT | WEEK
  | TO | UNTIL | LIFTED | BECAUSE | WITH | EXACTLY | THROUGH | AFTER | BY | OFF | NEXT | SOAK | AUTO | BETWEEN | AND | MOST | STARTS
  | TIME | TIMES | PASS | PASSES | SUNRISE | SUNSET
  | DAY | DAYS | WEEKS | ODD | EVEN | FIRST | SECOND | THIRD | FOURTH | LAST | OF | MONTH
  | WORD
  ;

// ---------------------------------------------------------------- What cannot be read

/** Braces that belong to no statement. They are a mistake; what stands in them is read as if they were not there. */
bareInFile[List<StatementNode> nodes]
  : ( b=LBRACE { Bare($ctx, $b, Place.File); } topLine[$nodes] ( NEWLINE topLine[$nodes] )* RBRACE { EndStatement(); } )*
  ;

bareInDescription[List<StatementNode> nodes]
  : ( b=LBRACE { Bare($ctx, $b, Place.Description); } bodyLine[$nodes] ( NEWLINE bodyLine[$nodes] )* RBRACE { EndStatement(); } )*
  ;

bareInSchedule[List<StatementNode> nodes]
  : ( b=LBRACE { Bare($ctx, $b, Place.Schedule); } scheduleLine[$nodes] ( NEWLINE scheduleLine[$nodes] )* RBRACE { EndStatement(); } )*
  ;

bareInSteps[StepList list]
  : ( b=LBRACE { Bare($ctx, $b, Place.Steps); } stepLine[$list] ( NEWLINE stepLine[$list] )* RBRACE { EndStatement(); } )*
  ;

bareInRestriction[List<StatementNode> nodes]
  : ( b=LBRACE { Bare($ctx, $b, Place.Restriction); } restrictionLine[$nodes] ( NEWLINE restrictionLine[$nodes] )* RBRACE { EndStatement(); } )*
  ;

/** The braces of a statement that is not known, with all that is in them. */
skipped : LBRACE ( ~( LBRACE | RBRACE ) | skipped )* RBRACE ;

unknownInSchedule[List<StatementNode> nodes]
  : ~( NEWLINE | LBRACE | RBRACE | ACCEPT
     | EVERY | ON | MANUAL | FROM | EXCEPT | START | FINISH | REPEAT | CUT | SCALE | NOTE | FORMERLY | STEPS | KEEP )
    ( ~( NEWLINE | LBRACE | RBRACE ) )* { Unknown($ctx, Place.Schedule); }
    ( skipped { EndStatement(); } bareInSchedule[$nodes] | { EndStatement(); } )
  ;

unknownInSteps[StepList list]
  : ~( NEWLINE | LBRACE | RBRACE | ACCEPT | WATER | PAUSE | REPEAT | CYCLE | RUN )
    ( ~( NEWLINE | LBRACE | RBRACE ) )* { Unknown($ctx, Place.Steps); }
    ( skipped { EndStatement(); } bareInSteps[$list] | { EndStatement(); } )
  ;

unknownInRestriction[List<StatementNode> nodes]
  : ~( NEWLINE | LBRACE | RBRACE | ACCEPT | FOR | FROM | ALLOW | EXCEPT | AT | EXEMPT | WEEK )
    ( ~( NEWLINE | LBRACE | RBRACE ) )* { Unknown($ctx, Place.Restriction); }
    ( skipped { EndStatement(); } bareInRestriction[$nodes] | { EndStatement(); } )
  ;

/** A statement of the top of a file that stands inside a description. */
misplaced[List<StatementNode> nodes]
  : ( INCLUDE | LET | GROUP | HOLD | CLOSED | EXTRA | SEQUENCE | RESTRICTION | SCHEDULE | LEAVE_OUT | DAYS | KEEP )
    ( ~( NEWLINE | LBRACE | RBRACE ) )* { Unknown($ctx, Place.Description); }
    ( skipped { EndStatement(); } bareInDescription[$nodes] | { EndStatement(); } )
  ;
