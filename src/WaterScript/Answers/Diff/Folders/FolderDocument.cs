using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Diff.Folders;

/// <summary>What changes in the sites of a folder, for programs.</summary>
[Description("`waterscript diff --report json` of a folder"), Shape(Of = "diff-folder")]
internal sealed record FolderDocument
{
    [JsonPropertyName("waterscript_diff_folder"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Description("Sites of which no file is another."), Shape(Least = 0)]
    public required int Untouched { get; init; }

    [Description("What was compared, where a file without a site was given.")]
    public string? Note { get; init; }

    [Description("What is written otherwise in a file without a site that no site includes.")]
    public IEnumerable<string>? Written { get; init; }

    [Description("The others, in order of their files.")]
    public required IEnumerable<SiteChangesItem> Sites { get; init; }
}

/// <summary>What changes in a site.</summary>
internal sealed record SiteChangesItem
{
    [Description("Its root file, from the folder.")]
    public required string File { get; init; }

    [Description("Where it was, if that is somewhere else.")]
    public string? OldFile { get; init; }

    [Shape(Words = ["added", "removed", "changed", "same", "unreadable"])]
    public required string Change { get; init; }

    [Description("Why the two could not be compared, or not as two.")]
    public string? Why { get; init; }

    [Description("What changes; of a site that is added or removed, all of it.")]
    public ChangesDocument? Changes { get; init; }

    /// <summary>Writes all of them.</summary>
    public static void Write(FolderChanges changes, Stream output)
    {
        ArgumentNullException.ThrowIfNull(changes);
        var document = new FolderDocument
        {
            Untouched = changes.Untouched,
            Note = changes.Note.Length > 0 ? changes.Note : null,
            Written = changes.Note.Length > 0 && changes.Sites.IsEmpty ? changes.Written : null,
            Sites = changes.Sites.Select(Of),
        };
        JsonDocuments.Write(output, document, new FolderContext(JsonDocuments.Options()).FolderDocument);
    }

    private static SiteChangesItem Of(SiteChanges site) => new()
    {
        File = site.Path,
        OldFile = site.OldPath,
        Change = site.Word,
        Why = site.Why.Length > 0 ? site.Why : null,
        Changes = site.Changes is { } changes ? ChangesJson.DocumentOf(changes) : null,
    };
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(FolderDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class FolderContext : JsonSerializerContext;
