using System.Text;
using Markdig;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace TastingKit.Pages;

/// <summary>
/// Prose as HTML. Markup written into the Markdown is shown as text; a link leads to a web page, a mail address or a place
/// on this page; a picture is one that the notebook carries. So the page asks for nothing from anywhere.
/// </summary>
internal sealed class ProseHtml
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().UsePipeTables().DisableHtml().Build();

    private static readonly char[] SentenceEnds = ['.', '!', '?'];

    private readonly HashSet<string> _ids = new(StringComparer.Ordinal);
    private readonly List<Heading> _headings = [];

    /// <summary>The headings rendered so far, in their order.</summary>
    internal IReadOnlyList<Heading> Headings => _headings;

    /// <summary>The text of the first heading; <see langword="null"/> if there is none.</summary>
    internal static string? FirstHeading(string markdown)
    {
        var heading = Markdown.Parse(SeenText.Of(markdown), Pipeline).Descendants<HeadingBlock>().FirstOrDefault();
        return heading is null ? null : PlainText(heading);
    }

    /// <summary>The first sentence below the headings, without its markup; <see langword="null"/> if there is none.</summary>
    internal static string? FirstSentence(string markdown)
    {
        var paragraph = Markdown.Parse(SeenText.Of(markdown), Pipeline).OfType<ParagraphBlock>().FirstOrDefault();
        if (paragraph is null)
            return null;
        var text = PlainText(paragraph).Trim();
        for (var at = text.IndexOfAny(SentenceEnds); at >= 0; at = text.IndexOfAny(SentenceEnds, at + 1))
        {
            if (at + 1 == text.Length || char.IsWhiteSpace(text[at + 1]))
                return text[..(at + 1)];
        }

        return text.Length == 0 ? null : text;
    }

    /// <summary>Renders one piece of prose; headings get identifiers that are unique among all rendered by this instance.</summary>
    internal string Render(string markdown, IReadOnlyDictionary<string, string> attachments)
    {
        var document = Markdown.Parse(SeenText.Of(markdown), Pipeline);
        foreach (var heading in document.Descendants<HeadingBlock>())
        {
            var text = PlainText(heading);
            var id = UniqueId(text);
            heading.GetAttributes().Id = id;
            _headings.Add(new Heading(heading.Level, text, id));
        }

        foreach (var link in document.Descendants<LinkInline>().ToArray())
        {
            if (link.IsImage)
                KeepCarriedPicture(link, attachments);
            else if (!LeadsSomewhereKnown(link.Url))
                link.ReplaceBy(Contents(link), copyChildren: false);
        }

        foreach (var link in document.Descendants<AutolinkInline>().Where(link => !link.IsEmail && !LeadsSomewhereKnown(link.Url)).ToArray())
            link.ReplaceBy(new LiteralInline(link.Url), copyChildren: false);
        return document.ToHtml(Pipeline);
    }

    private static void KeepCarriedPicture(LinkInline picture, IReadOnlyDictionary<string, string> attachments)
    {
        const string Attachment = "attachment:";
        if (picture.Url is { } url && url.StartsWith(Attachment, StringComparison.Ordinal) && attachments.TryGetValue(Uri.UnescapeDataString(url[Attachment.Length..]), out var data))
            picture.Url = data;
        else if (picture.Url?.StartsWith("data:image/", StringComparison.Ordinal) != true)
            picture.ReplaceBy(Contents(picture), copyChildren: false);
    }

    private static bool LeadsSomewhereKnown(string? url) =>
        url is not null && (url.StartsWith('#') || url.StartsWith("https://", StringComparison.OrdinalIgnoreCase) ||
            url.StartsWith("http://", StringComparison.OrdinalIgnoreCase) || url.StartsWith("mailto:", StringComparison.OrdinalIgnoreCase));

    private static LiteralInline Contents(ContainerInline container) => new(PlainText(container));

    private static string PlainText(LeafBlock block) => block.Inline is null ? "" : PlainText(block.Inline);

    private static string PlainText(ContainerInline container)
    {
        var text = new StringBuilder();
        foreach (var inline in container.Descendants())
        {
            _ = inline switch
            {
                LiteralInline literal => text.Append(literal.Content.AsSpan()),
                CodeInline code => text.Append(code.Content),
                LineBreakInline => text.Append(' '),
                _ => text,
            };
        }

        return text.ToString();
    }

    private string UniqueId(string text)
    {
        var id = new StringBuilder("at-");
        foreach (var character in text)
        {
            if (char.IsAsciiLetterOrDigit(character))
                id.Append(char.ToLowerInvariant(character));
            else if (id[^1] != '-')
                id.Append('-');
        }

        var stem = id.ToString().TrimEnd('-');
        var unique = stem;
        for (var n = 2; !_ids.Add(unique); n++)
            unique = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{stem}-{n}");
        return unique;
    }

    /// <summary>A heading of the prose.</summary>
    /// <param name="Level">From 1, the largest.</param>
    /// <param name="Text">Its text without markup.</param>
    /// <param name="Id">Its identifier on the page.</param>
    internal sealed record Heading(int Level, string Text, string Id);
}
