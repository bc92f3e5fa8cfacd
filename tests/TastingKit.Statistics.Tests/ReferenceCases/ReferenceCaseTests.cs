using TastingKit.Reference;

namespace TastingKit.Statistics.Tests;

public sealed class ReferenceCaseTests
{
    private static readonly string Root = Path.Combine(AppContext.BaseDirectory, "ReferenceCases");

    private static readonly string[] Names =
        [.. Directory.GetDirectories(Root).Where(d => File.Exists(Path.Combine(d, "model.json"))).Select(d => Path.GetFileName(d)!).Order(StringComparer.Ordinal)];

    public static TheoryData<string> Cases => [.. Names];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_figure_of_a_case_is_that_of_the_reference(string name)
    {
        string folder = Path.Combine(Root, name);
        var comparison = FigureComparison.Of(ReferenceCase.Read(folder).Fit(), Path.Combine(folder, "reference.json"));
        Assert.True(comparison.Differences.Count == 0, string.Join(Environment.NewLine, comparison.Differences));
        Assert.Equal(ExpectedCount(name), comparison.Compared);
    }

    [Fact]
    public void All_stored_cases_are_compared() =>
        Assert.Equal(["dyestuff", "dyestuff2", "pastes", "penicillin", "rest", "sleepstudy", "wine"], Names);

    // Stated, so that a figure that silently drops out of the comparison is noticed.
    private static int ExpectedCount(string name) => name switch
    {
        "dyestuff" => 28,
        "dyestuff2" => 27,
        "pastes" => 116,
        "penicillin" => 226,
        "rest" => 50,
        "sleepstudy" => 175,
        "wine" => 215,
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "A new case needs its count of figures here."),
    };
}
