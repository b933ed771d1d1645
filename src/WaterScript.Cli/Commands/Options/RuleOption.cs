using System.CommandLine;
using System.CommandLine.Parsing;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;

namespace WaterScript.Cli.Commands.Options;

/// <summary>Rules by name.</summary>
internal static class RuleOption
{
    /// <summary>The names of all rules; to be asked for only when somebody types one, since each command is set up whenever the program starts.</summary>
    public static string[] Names => [.. RuleCatalogue.Rules.Select(rule => rule.Slug)];

    /// <summary><c>--rule NAME</c>, which may stand several times.</summary>
    public static Option<Rule[]?> Create(string description)
    {
        var option = OptionValues.Create<Rule[]?>("--rule", "NAME", description, result =>
        {
            Rule?[] found = [.. result.Tokens.Select(token => Find(token.Value, result))];
            return [.. found.OfType<Rule>()];
        });
        option.Arity = ArgumentArity.OneOrMore;
        option.AllowMultipleArgumentsPerToken = false;
        option.CompletionSources.Clear();
        option.CompletionSources.Add(_ => Names);
        return option;
    }

    /// <summary>The rule of a name; null, with what is wrong, where there is none.</summary>
    public static Rule? Find(string name, ArgumentResult result)
    {
        if (RuleCatalogue.Find(name) is { } rule) return rule;
        var nearest = Spelling.Nearest(name, Names);
        result.AddError($"no rule \"{name}\"" + (nearest is null ? "; the list: waterscript explain" : $"; did you mean {nearest}?"));
        return null;
    }
}
