/**
 * The words of WaterScript, without modes and without predicates. The longest match wins, so that a slip such as
 * `18min`, `1/5/2026` or `06:00-09:00` is one token and can be answered at its place.
 *
 * Every word that a rule of the parser names has a token of its own; all of them may be names (see `name` there).
 * Units, days of the week and months are plain WORDs: what they mean is decided where they stand.
 */
lexer grammar WaterScriptLexer;

// ---- Words that begin a statement at the top of a file ----
INCLUDE     : 'include' ;
LET         : 'let' ;
GROUP       : 'group' ;
HOLD        : 'hold' ;
CLOSED      : 'closed' ;
EXTRA       : 'extra' ;
ACCEPT      : 'accept' ;
SEQUENCE    : 'sequence' ;
RESTRICTION : 'restriction' ;
SCHEDULE    : 'schedule' ;
KEEP        : 'keep' ;
LEAVE_OUT   : 'skip' ; // SKIP is a word of ANTLR's own

// ---- Words that begin a statement of a schedule ----
EVERY  : 'every' ;
ON     : 'on' ;
MANUAL : 'manual' ;
FROM   : 'from' ;
EXCEPT : 'except' ;
START  : 'start' ;
FINISH : 'finish' ;
REPEAT : 'repeat' ;
CUT    : 'cut' ;
SCALE  : 'scale' ;
NOTE   : 'note' ;
FORMERLY : 'formerly' ;
STEPS  : 'steps' ;

// ---- Words that begin a step ----
WATER : 'water' ;
PAUSE : 'pause' ;
CYCLE : 'cycle' ;
RUN   : 'run' ;

// ---- Words that begin a statement of a restriction ----
FOR    : 'for' ;
ALLOW  : 'allow' ;
AT     : 'at' ;
EXEMPT : 'exempt' ;
WEEK   : 'week' ;

// ---- Words inside statements ----
TO      : 'to' ;
UNTIL   : 'until' ;
LIFTED  : 'lifted' ;
BECAUSE : 'because' ;
WITH    : 'with' ;
EXACTLY : 'exactly' ;
THROUGH : 'through' ;
AFTER   : 'after' ;
BY      : 'by' ;
OFF     : 'off' ;
NEXT    : 'next' ;
SOAK    : 'soak' ;
AUTO    : 'auto' ;
BETWEEN : 'between' ;
AND     : 'and' ;
MOST    : 'most' ;
STARTS  : 'starts' ;
TIME    : 'time' ;
TIMES   : 'times' ;
PASS    : 'pass' ;
PASSES  : 'passes' ;
SUNRISE : 'sunrise' ;
SUNSET  : 'sunset' ;

// ---- Words of days ----
DAY    : 'day' ;
DAYS   : 'days' ;
WEEKS  : 'weeks' ;
ODD    : 'odd' ;
EVEN   : 'even' ;
FIRST  : 'first' ;
SECOND : 'second' ;
THIRD  : 'third' ;
FOURTH : 'fourth' ;
LAST   : 'last' ;
OF     : 'of' ;
MONTH  : 'month' ;

// ---- Everything else ----

/** A name, a unit, a day, a month: `north-bed`, `L`, `mon`, `m²`. Whether a name is well formed is judged where it is given. */
WORD : LETTER WORD_PART* ;

/** Words with a stroke between them: `L/min`, `Europe/Lisbon`, `Etc/GMT+3`. */
PATH : LETTER WORD_PART* ( '/' ( WORD_PART | '+' )+ )+ ;

/** `12`, `1.5`. A sign is a token of its own. */
NUMBER : DIGIT+ ( '.' DIGIT+ )? ;

/** `2026-05-01`; whether there is such a day is judged later. */
DATE : DIGIT DIGIT DIGIT DIGIT '-' DIGIT DIGIT '-' DIGIT DIGIT ;

/** `06:00`, `06:00:30`, and the slip `6:00`; whether there is such a time is judged later. */
CLOCK : DIGIT DIGIT? ':' DIGIT DIGIT ( ':' DIGIT DIGIT )? ;

/** A number with its unit glued on: `18min`, `1h30min`, `5L/min`; also `3x`, `6pm`. */
GLUED : DIGIT+ ( '.' DIGIT+ )? LETTER ( WORD_PART | [./] )* ;

/** Anything else that begins like a number: `1/5/2026`, `06:00-09:00`, `6:30pm`, `10-20`, `.5`. */
MALFORMED : ( DIGIT | '.' DIGIT ) ( WORD_PART | DASH | [.:/] )* ;

/** A label: `"Small lawn"`. Its escapes are read by the tree. */
STRING : '"' ( '\\' ~[\r\n] | ~["\\\r\n] )* '"' ;

/** A label in typographic quotes, an understood slip. */
CURLY_STRING : [\u201C\u201D\u201E\u201F\u00AB] ~["\u201C\u201D\u201E\u201F\u00AB\u00BB\r\n]* ["\u201C\u201D\u201F\u00BB] ;

/** A label whose closing quote is missing; it stops at the end of the line. */
OPEN_STRING : '"' ( '\\' ~[\r\n] | ~["\\\r\n] )* '\\'? | [\u201C\u201D\u201E\u201F\u00AB] ~["\u201C\u201D\u201E\u201F\u00AB\u00BB\r\n]* ;

COMMA   : ',' ;
PLUS    : '+' ;
EQUALS  : '=' ;
PERCENT : '%' ;
LBRACE  : '{' ;
RBRACE  : '}' ;

/** A minus, or one of the typographic dashes that word processors make of it. */
MINUS : '-' | DASH ;

/** The end of a line, or `;`. Those that end no statement are taken out before the parser sees them. */
NEWLINE : '\r\n' | '\n' | '\r' | ';' ;

COMMENT : '#' ~[\r\n]* -> channel(HIDDEN) ;

/** Blanks; also what is reported as hidden text and otherwise read as a blank. */
BLANK : [ \t\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u00A0\u1680\u2000-\u200F\u2028-\u202F\u205F-\u206F\u3000\uFEFF]+ -> skip ;

OTHER : [\uD800-\uDBFF] [\uDC00-\uDFFF] | . ;

/**
 * What a word of any language is made of, so that a slip in one is reported whole. A few stretches stand for the letters of all
 * scripts: the exact classes of Unicode have hundreds, which every start of the program would have to set up.
 */
fragment LETTER
  : [a-zA-Z_\u00AA\u00B0\u00B2\u00B3\u00B5\u00BA\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02FF\u0370-\u167F\u1681-\u1FFF\u2C00-\u2DFF]
  | [\u3005-\u3007\u3021-\uD7FF\uF900-\uFDFF\uFE70-\uFEFE\uFF21-\uFF3A\uFF41-\uFF5A\uFF66-\uFFDC]
  ;
fragment WORD_PART : LETTER | [\u0300-\u036F\uFE00-\uFE0F0-9\-] ;
fragment DIGIT     : [0-9] ;
fragment DASH      : [\u2010-\u2015\u2212] ;
