namespace WaterScript.Fuzz.Stages;

/// <summary>Something that is done with every input, and what has to hold of it.</summary>
internal interface IStage
{
    /// <summary>Its name, for counts and failures.</summary>
    string Name { get; }

    /// <summary>Does it.</summary>
    /// <param name="site">The input.</param>
    /// <param name="original">The site that it was made from.</param>
    /// <returns>Whether there was anything to do: a site with an error has no chart.</returns>
    /// <exception cref="BrokenException">Something does not hold.</exception>
    bool Run(SiteInHand site, SiteInHand original);
}
