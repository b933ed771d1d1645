namespace WaterScript.Tests.Rfc5545;

/// <summary>What stands between a BEGIN and its END.</summary>
/// <param name="Line">The line of its BEGIN.</param>
/// <param name="Name">Such as VEVENT.</param>
internal sealed record Component(int Line, string Name)
{
    public List<ContentLine> Properties { get; } = [];

    public List<Component> Parts { get; } = [];

    public static Component Read(byte[] file)
    {
        var lines = ContentLines.Of(file).Select(line => ContentLine.Of(line.Number, line.Text));
        var open = new Stack<Component>();
        Component? whole = null;
        foreach (var line in lines)
        {
            if (whole is not null) throw new Malformed(line.Number, "stands after the end");
            switch (line.Name)
            {
                case "BEGIN":
                    var part = new Component(line.Number, line.Value);
                    if (open.TryPeek(out var around)) around.Parts.Add(part);
                    open.Push(part);
                    break;
                case "END":
                    if (!open.TryPop(out var closed) || closed.Name != line.Value) throw new Malformed(line.Number, $"END:{line.Value} closes nothing");
                    if (open.Count == 0) whole = closed;
                    break;
                default:
                    if (open.Count == 0) throw new Malformed(line.Number, "stands outside a component");
                    if (open.Peek().Parts.Count > 0) throw new Malformed(line.Number, "stands after a component; properties come first (3.6)");
                    open.Peek().Properties.Add(line);
                    break;
            }
        }

        return whole ?? throw new Malformed(0, "is not closed");
    }

    public IEnumerable<ContentLine> All(string property) => Properties.Where(line => line.Name == property);

    public ContentLine? Find(string property) => All(property).FirstOrDefault();

    public ContentLine The(string property) => Find(property) ?? throw new Malformed(Line, $"{Name} has no {property}");

    /// <summary>The text of a property without its escapes; null where there is none.</summary>
    public string? Text(string property) => Find(property) is { } line ? Values.Texts(line).Single() : null;
}
