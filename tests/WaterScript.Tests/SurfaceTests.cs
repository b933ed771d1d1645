using Xunit;

namespace WaterScript.Tests;

/// <summary>What users of the library see is small, and stands in one namespace.</summary>
public class SurfaceTests
{
    private const int MostTypes = 60;

    private static readonly Type[] Public = typeof(Compilation).Assembly.GetExportedTypes();

    [Fact]
    public void There_are_few_public_types() => Assert.InRange(Public.Length, 1, MostTypes);

    [Fact]
    public void One_using_names_them_all() => Assert.All(Public, type => Assert.Equal("WaterScript", type.Namespace));

    [Fact]
    public void What_is_given_cannot_be_made_or_changed_by_a_user() => Assert.All(Public.Where(type => !type.IsEnum), type =>
    {
        Assert.True(type.IsSealed);
        Assert.Empty(type.GetConstructors());
        Assert.All(type.GetProperties(), property => Assert.False(property.SetMethod is { IsPublic: true }));
    });
}
