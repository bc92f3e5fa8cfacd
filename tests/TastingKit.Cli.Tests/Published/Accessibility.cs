using System.Reflection;
using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests.Published;

/// <summary>What axe-core finds on an open page.</summary>
internal static class Accessibility
{
    private static readonly Lazy<string> Axe = new(Read);

    /// <summary>Every finding as a line: how severe it is, its rule, where, and what it wants.</summary>
    internal static async Task<IReadOnlyList<Finding>> FindingsAsync(BrowserPage page)
    {
        await page.EvaluateAsync(Axe.Value + "; typeof axe");
        var violations = await page.EvaluateAsync(
            """
            axe.run(document, { resultTypes: ['violations'] }).then(result => result.violations.flatMap(rule => rule.nodes.map(node =>
              ({ impact: node.impact || rule.impact || 'minor', text: rule.id + ': ' + node.target.join(' ') + ': ' + node.failureSummary.replace(/\s+/g, ' ') }))))
            """);
        return [.. violations!.AsArray().Select(found => new Finding((string)found!["impact"]!, (string)found["text"]!))];
    }

    private static string Read()
    {
        using var stream = Assembly.Load("Deque.AxeCore.Commons").GetManifestResourceStream("Deque.AxeCore.Commons.Resources.axe.min.js")
            ?? throw new InvalidOperationException("axe.min.js is not in the assembly Deque.AxeCore.Commons.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}

/// <summary>One finding.</summary>
/// <param name="Impact"><c>minor</c>, <c>moderate</c>, <c>serious</c> or <c>critical</c>.</param>
/// <param name="Text">The rule, where, and what it wants.</param>
internal sealed record Finding(string Impact, string Text)
{
    public override string ToString() => $"{Impact}: {Text}";
}
