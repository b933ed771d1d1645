using System.Collections.Immutable;
using Antlr4.Runtime;
using Antlr4.Runtime.Atn;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax;

/// <summary>
/// Finds the words of which each, put before a token, would let the token stand: <c>at</c> in <c>start 06:00</c>. They are read
/// off the grammar itself, so that there is no second list of what follows what.
/// </summary>
internal static class MissingWord
{
    /// <summary>
    /// The words, in order of the grammar; several where more than one would do. None where the token is no value, since a name may stand almost
    /// anywhere.
    /// </summary>
    /// <param name="token">The token that cannot stand where it does.</param>
    /// <param name="state">Where the parser was, as the grammar's automaton numbers it.</param>
    /// <param name="recognizer">The parser.</param>
    public static ImmutableArray<string> Before(IToken token, int state, Antlr4.Runtime.Parser recognizer)
    {
        if (state < 0 || !IsValue(token.Type)) return [];
        var words = ImmutableArray.CreateBuilder<string>();
        foreach (var step in StepsFrom(recognizer.Atn.states[state], []))
        {
            if (!recognizer.Atn.NextTokens(step.target).Contains(token.Type)) continue;
            words.AddRange(step.Label.ToArray().Select(type => recognizer.Vocabulary.GetLiteralName(type)?.Trim('\'')).OfType<string>().Where(IsWord));
        }

        return words.ToImmutable();
    }

    /// <summary>What may be read next in a state: the steps that take a token, also those inside rules that may begin there.</summary>
    private static IEnumerable<Transition> StepsFrom(ATNState state, HashSet<int> seen)
    {
        if (state is RuleStopState || !seen.Add(state.stateNumber)) yield break;
        for (var i = 0; i < state.NumberOfTransitions; i++)
        {
            var transition = state.Transition(i);
            if (!transition.IsEpsilon)
            {
                if (transition is AtomTransition or SetTransition) yield return transition;
                continue;
            }

            foreach (var step in StepsFrom(transition.target, seen)) yield return step;
        }
    }

    private static bool IsValue(int type) => type is WaterScriptLexer.NUMBER or WaterScriptLexer.CLOCK or WaterScriptLexer.DATE
        or WaterScriptLexer.STRING or WaterScriptLexer.SUNRISE or WaterScriptLexer.SUNSET;

    private static bool IsWord(string literal) => literal == "=" || char.IsAsciiLetter(literal[0]);
}
