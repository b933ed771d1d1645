namespace WaterScript.Fuzz.Inputs;

/// <summary>What goes through all stages.</summary>
/// <param name="Files">The site.</param>
/// <param name="Original">The site that it was made from, for the stages that compare.</param>
/// <param name="Salt">Decides what else a stage chooses, such as dates: 0 to one below <see cref="Salts"/>.</param>
/// <param name="Recipe">What was done to the original, for people.</param>
public sealed record FuzzInput(SiteFiles Files, SiteFiles Original, int Salt, string Recipe)
{
    /// <summary>So few that a case of which only the files are kept can be run with each of them.</summary>
    public const int Salts = 8;
}
