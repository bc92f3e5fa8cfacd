using System.Globalization;
using System.Text;

namespace TastingKit.Pages;

/// <summary>What was found wrong with a log, as one page that needs nothing but itself.</summary>
public static class CheckPage
{
    /// <summary>Writes the page. Its title says what became of the rows.</summary>
    /// <param name="log">The log as read.</param>
    public static string Write(TastingLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        var title = Title(log);
        // What a notebook folds away is what this page is for.
        var layout = new ResultLayout([.. LogLayout.Of(log).Blocks.SelectMany(block => block is LayoutBlock.Folded folded ? folded.Blocks : [block])]);
        var body = HtmlRenderer.Render(layout);
        var html = new StringBuilder();
        PageFrame.AppendHead(html, title);
        html.Append(CultureInfo.InvariantCulture, $"<main id=\"content\">\n<h1>{HtmlText.Escape(title)}</h1>\n{body}</main>\n");
        PageFrame.AppendFooter(html, $" from the log {log.Name}");
        if (body.Contains(" tk-long\"", StringComparison.Ordinal))
            html.Append(TableScript.Html);
        return html.Append("</body>\n</html>\n").ToString();
    }

    private static string Title(TastingLog log)
    {
        var rows = log.Accounts.Sum(account => account.Rows);
        var rejected = log.Accounts.Sum(account => account.Rejected);
        var doubtful = log.Accounts.Sum(account => account.Doubtful);
        return (rejected, doubtful) switch
        {
            (0, 0) => FormattableString.Invariant($"{log.Name}: all {rows} rows accepted without a doubt"),
            (0, _) => FormattableString.Invariant($"{log.Name}: all {rows} rows accepted, {doubtful} of them doubtful"),
            _ => FormattableString.Invariant($"{log.Name}: {rejected} of {rows} rows rejected, {doubtful} more doubtful"),
        };
    }
}
