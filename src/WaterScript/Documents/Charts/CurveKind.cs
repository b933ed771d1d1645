namespace WaterScript.Documents.Charts;

/// <summary>What a curve shows.</summary>
internal enum CurveKind
{
    /// <summary>What is drawn from a supply; changes in steps.</summary>
    Flow,

    /// <summary>What a tank holds; changes evenly between its corners.</summary>
    Level,

    /// <summary>What a controller holds open; changes in steps.</summary>
    Power,
}
