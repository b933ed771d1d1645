using Antlr4.Runtime;
using WaterScript.Language;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Tokens;

/// <summary>In which braces one stands, going over the tokens of a file.</summary>
internal sealed class PlaceStack
{
    private readonly Stack<(Place Place, string Kind)> _open = new();
    private string _first = "";

    /// <summary>What place it is.</summary>
    public Place Place => _open.TryPeek(out var open) ? open.Place : Place.File;

    /// <summary>The word of the block that one is in; empty at the top.</summary>
    public string Kind => _open.TryPeek(out var open) ? open.Kind : "";

    /// <summary>Whether it is that place.</summary>
    public bool IsAt(Place place) => Place == place;

    /// <summary>Goes over a token.</summary>
    public void Take(IToken token)
    {
        switch (token.Type)
        {
            case WaterScriptLexer.LBRACE:
                _open.Push((InBraces(), _first.Length == 0 ? Kind : _first));
                _first = "";
                break;
            case WaterScriptLexer.RBRACE:
                _open.TryPop(out _);
                _first = "";
                break;
            case WaterScriptLexer.NEWLINE:
                _first = "";
                break;
            default:
                if (_first.Length == 0) _first = token.Text;
                break;
        }
    }

    /// <summary>Whether a statement may begin with a word here: in a description, one of its properties.</summary>
    public bool MayBegin(string word) => IsAt(Place.Description)
        ? Schema.Blocks.Any(block => block.Kind.Split(' ')[0] == Kind && block.Find(word) is not null)
        : Words.BeginsStatement(word, Place);

    private Place InBraces() => (Place, _first) switch
    {
        (var place, "") => place,
        (Place.File, "schedule") => Place.Schedule,
        (Place.File, "restriction") => Place.Restriction,
        (Place.File, "sequence" or "extra") or (Place.Schedule, _) or (Place.Steps, _) => Place.Steps,
        _ => Place.Description,
    };
}
