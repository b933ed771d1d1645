using System.Collections.Immutable;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>Where something is written.</summary>
/// <param name="File">Index among the files of the site.</param>
/// <param name="Line">The line, from 1.</param>
/// <param name="Href">What leads there.</param>
internal sealed record PicturePlace(int File, int Line, string Href)
{
    /// <summary>By what an editor that shows the picture finds the line; null for its number.</summary>
    public string? Mark { get; init; }
}

/// <summary>A finding of a picture.</summary>
/// <param name="Severity">0 advice, 1 a warning, 2 an error.</param>
/// <param name="Words">Its heading.</param>
/// <param name="When">When it happens, as a sentence.</param>
/// <param name="Place">Index of the place that causes it.</param>
internal sealed record PictureFinding(int Severity, string Words, string When, int Place);

/// <summary>What nights of a site have in common. All texts are shown as they are.</summary>
internal sealed record Picture
{
    /// <summary>What people call the zones; after them the lanes that zones share.</summary>
    public required ImmutableArray<string> Zones { get; init; }

    /// <summary>The zones of each lane, in words.</summary>
    public required ImmutableArray<string> Members { get; init; }

    /// <summary>By which lanes are sorted.</summary>
    public required ImmutableArray<int> Order { get; init; }

    /// <summary>What people call the schedules.</summary>
    public required ImmutableArray<string> Schedules { get; init; }

    /// <summary>Where steps and findings are written.</summary>
    public required ImmutableArray<PicturePlace> Places { get; init; }

    /// <summary>The findings, by number.</summary>
    public required ImmutableArray<PictureFinding> Findings { get; init; }

    /// <summary>The nights.</summary>
    public required ImmutableArray<Night> Nights { get; init; }

    /// <summary>Whether there is but one.</summary>
    public bool IsOneNight => Nights.Length == 1;

    /// <summary>The time axis of all nights.</summary>
    public TimeAxis AxisFor(PictureSizes sizes, double zoom = 1, double pan = 0)
    {
        var busy = Nights.Where(night => !night.IsDry).ToList();
        var most = Nights.Max(night => night.Length);
        List<double[]> spans = [.. busy.SelectMany(night => night.Busy()).Select(span => new double[] { span.From, span.Until })];
        return new TimeAxis(Folding.Pieces(spans, sizes, most), sizes, most, zoom, pan);
    }
}
