using System.Reflection;
using System.Text;
using TastingKit.Reading;

namespace TastingKit.Tests.Log;

/// <summary>The catalogue of rules says what reports give, and the page on it says what the catalogue says.</summary>
public sealed class LogRuleTests
{
    private static readonly string Page = Path.Combine(Root(), "src", "TastingKit", "Log", "rules.md");

    [Fact]
    public void Every_name_in_use_is_a_rule_of_the_catalogue_and_the_other_way_round()
    {
        var inUse = typeof(Rule).GetFields(BindingFlags.Public | BindingFlags.Static).Select(field => (string)field.GetRawConstantValue()!).Order(StringComparer.Ordinal);
        Assert.Equal(inUse, LogRule.All.Select(rule => rule.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_rule_is_named_in_small_letters_and_says_what_it_finds_and_what_to_do()
    {
        Assert.All(LogRule.All, rule =>
        {
            Assert.Matches("^[a-z]+(-[a-z]+)*$", rule.Name);
            Assert.EndsWith(".", rule.Meaning, StringComparison.Ordinal);
            Assert.EndsWith(".", rule.Fix, StringComparison.Ordinal);
            Assert.Same(rule, LogRule.Named(rule.Name));
        });
        Assert.Null(LogRule.Named("no-such-rule"));
    }

    [Fact]
    public void Only_a_doubt_can_be_accepted() =>
        Assert.All(LogRule.All, rule => Assert.True(!rule.CanBeAccepted || rule.Severity == Severity.Doubtful, rule.Name));

    [Fact]
    public void The_page_on_the_rules_is_the_catalogue()
    {
        var expected = Markdown();
        var found = File.Exists(Page) ? File.ReadAllText(Page) : "";
        if (found != expected)
        {
            var made = Path.Combine(Path.GetTempPath(), "rules.md");
            File.WriteAllText(made, expected);
            Assert.Fail($"src/TastingKit/Log/rules.md is not what the catalogue says. What it should be stands in {made}.");
        }
    }

    private static string Markdown()
    {
        var page = new StringBuilder("""
            # The rules a log is judged by

            `tastingkit check` names a rule in every report. A row with a *rejected* report is not in the log; a *doubtful* report leaves a
            cell missing or keeps a value that a person should look at; *information* costs nothing. A rule of cells rejects the row where
            the cell is one that a row can't do without. What *accept* has a `yes` can be confirmed by a line of `accepted.csv`.

            `accepted.csv` stands beside the log, with the columns rule, file, row_id, column, found, beside, remark, as `check --problems` writes them;
            further columns are let be. A line holds for the row of that identifier (a cup without one goes by `line-5`, and loses it when rows are
            sorted) as long as the text found and the values beside it stay. A line that confirms nothing is reported, and so is one on a rule without a `yes`.

            | rule | severity | accept | what it finds | what to do |
            |---|---|---|---|---|

            """);
        foreach (var rule in LogRule.All)
            page.Append($"| {rule.Name} | {rule.Severity.ToString().ToLowerInvariant()} | {(rule.CanBeAccepted ? "yes" : "")} | {rule.Meaning} | {rule.Fix} |\n");
        return page.ToString();
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "TastingKit.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds TastingKit.sln.");
    }
}
