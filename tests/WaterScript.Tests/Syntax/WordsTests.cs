using WaterScript.Language;
using WaterScript.Syntax;
using WaterScript.Syntax.Generated;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>The words with which a statement may begin are those of the grammar.</summary>
public class WordsTests
{
    [Theory]
    [InlineData(Place.File, WaterScriptParser.RULE_topStatement)]
    [InlineData(Place.Schedule, WaterScriptParser.RULE_scheduleStatement)]
    [InlineData(Place.Steps, WaterScriptParser.RULE_step, WaterScriptParser.RULE_acceptStatement)]
    [InlineData(Place.Restriction, WaterScriptParser.RULE_restrictionStatement)]
    public void A_statement_begins_with_a_word_that_is_listed(object place, params int[] rules)
    {
        var words = rules.SelectMany(FirstWords);
        if (place is Place.File) words = words.Concat(Schema.Blocks.Select(block => block.Kind.Split(' ')[0]).Where(kind => kind != "power")).Distinct();
        Assert.Equal(words.Order(StringComparer.Ordinal), Words.At((Place)place).Order(StringComparer.Ordinal));
    }

    private static IEnumerable<string> FirstWords(int rule) =>
        WaterScriptParser._ATN.NextTokens(WaterScriptParser._ATN.ruleToStartState[rule]).ToArray()
            .Select(type => WaterScriptParser.DefaultVocabulary.GetLiteralName(type).Trim('\''));
}
