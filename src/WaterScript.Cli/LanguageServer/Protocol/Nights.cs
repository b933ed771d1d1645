namespace WaterScript.Cli.LanguageServer.Protocol;

/// <summary>A request about a night of a document, by its date; the next with water where there is none.</summary>
internal sealed record NightParams(DocumentId TextDocument, string? Date = null);

/// <summary>A request about a zone on a date.</summary>
internal sealed record WhyParams(DocumentId TextDocument, string Zone, string? Date = null);

/// <summary>A request about a rule.</summary>
internal sealed record RuleParams(string Rule);

/// <summary>What a line makes in a night: from and until in seconds since the noon of its date.</summary>
internal sealed record NightLineAnswer(int Line, IReadOnlyList<IReadOnlyList<long>> Runs, bool IsComb, string Text);

/// <summary>A night beside the text, on one scale for all lines.</summary>
internal sealed record NightAnswer(string Date, string Title, long From, long Until, IReadOnlyList<NightLineAnswer> Lines);

/// <summary>A page of HTML.</summary>
internal sealed record PictureAnswer(string Html);

/// <summary>A night to choose.</summary>
internal sealed record NightChoiceAnswer(string Date, string Text);

/// <summary>What questions can be about.</summary>
internal sealed record NamesAnswer(IReadOnlyList<ZoneNameAnswer> Zones, IReadOnlyList<RuleNameAnswer> Rules);

internal sealed record ZoneNameAnswer(string Name, string Label);

internal sealed record RuleNameAnswer(string Name, string Text);

/// <summary>A site in one line.</summary>
internal sealed record StatusAnswer(string Text, string Tooltip);

/// <summary>A text to open beside a file.</summary>
internal sealed record TextAnswer(string Text, string Language);

/// <summary>What a server can do beyond the protocol, under its name.</summary>
internal sealed record ExperimentalCapabilities(OwnCapabilities Waterscript);

internal sealed record OwnCapabilities(IReadOnlyList<string> Requests);
