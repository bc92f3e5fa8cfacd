namespace TastingKit.Tests.Hostility;

/// <summary>
/// The texts that every place which shows text is tried with. One that runs sets <c>window.ran</c>; one that loads asks
/// <c>x.example</c>. Both are looked for where a browser shows them.
/// </summary>
internal static class HostileTexts
{
    /// <summary>Plain words: a file in which more than a few characters are control characters is not taken for a text at all.</summary>
    private const string PlainWords = " and plain words go on behind it, as many as a file needs of them to be taken for a text that people wrote";

    internal static IReadOnlyList<HostileText> All { get; } =
    [
        // Markup, scripts, and ways out of where a text stands.
        new("script", "<script>window.ran=1</script>"),
        new("picture with a handler", "<img src=https://x.example/p.png onerror=window.ran=1>"),
        new("drawing with a handler", "<svg onload=window.ran=1><animate onbegin=window.ran=1 attributeName=x dur=1s></svg>"),
        new("mathematics that changes its meaning when parsed again", "<math><mtext><table><mglyph><style><!--</style><img title=\"--&gt;&lt;img src=1 onerror=window.ran=1&gt;\">"),
        new("end of what holds it", "</p></td></tr></table></details></section></figure></title></style></textarea></pre><h1>out</h1>"),
        new("end of a script", "</script><script>window.ran=1</script>"),
        new("beginning of a comment", "<!-- and on"),
        new("comment that ends early", "<!--> <img src=x onerror=window.ran=1> -->"),
        new("script inside a comment", "<!--<script>"),
        new("character data", "<![CDATA[<b>x</b>]]>"),
        new("processing instruction", "<?xml version=\"1.0\"?><x/>"),
        new("end of a quoted attribute", "\" onmouseover=\"window.ran=1\" x=\""),
        new("end of an attribute in single quotes", "' autofocus onfocus='window.ran=1' x='"),
        new("end of an attribute in backticks", "` onclick=window.ran=1 `"),
        new("link that runs", "<a href=\"javascript:window.ran=1\">press</a>"),
        new("bare link that runs", "javascript:window.ran=1"),
        new("link of data", "data:text/html,<script>window.ran=1</script>"),
        new("style that hides and loads", "<style>@import url(https://x.example/s.css);*{display:none}</style>"),
        new("stylesheet elsewhere", "<link rel=stylesheet href=https://x.example/s.css>"),
        new("page elsewhere", "<meta http-equiv=refresh content=\"0;url=https://x.example/\"><base href=https://x.example/>"),
        new("frame", "<iframe srcdoc=\"<script>parent.ran=1</script>\"></iframe><object data=https://x.example/o></object>"),
        new("entities", "&lt;b&gt; &amp;lt; &#60;i&#62; &nbsp; &copy &quot;"),
        new("names that JavaScript knows", "__proto__ constructor toString"),

        // Other languages that a text may be taken for.
        new("Markdown link", "[press](javascript:window.ran=1) [x][y]"),
        new("Markdown picture", "![x](https://x.example/p.png)"),
        new("Markdown emphasis", "**bold** _it_ ~~s~~ `code` ***"),
        new("Markdown addresses", "<https://x.example/a> www.x.example https://x.example/b me@x.example"),
        new("Markdown table", "a | b || c\\| d"),
        new("Markdown blocks", "> 1. - # + * x"),
        new("Markdown definition", "[x]: https://x.example 'x'"),
        new("templates", "{{7*7}} ${7*7} #{7*7} <%= 7*7 %> {% x %} {0} %s %d @x"),
        new("mathematics between dollars", "$\\href{javascript:window.ran=1}{x}$ $$\\frac{1}{2}$$"),
        new("mathematics in brackets", "\\(x\\) \\[y\\] \\begin{align}z\\end{align}"),
        new("markup that a chart reads", "<b>bold</b><i>it</i><br><sub>s</sub><span style=\"color:red\">r</span><a href=\"https://x.example/\">a</a>"),
        new("references that a chart reads", "%{x} %{customdata[0]}<extra>e</extra>"),
        new("JSON", "\",\"y\":{\"z\":[1]}}],\" \\u003cb\\u003e \\"),
        new("JavaScript", "';window.ran=1;//\\x3cb\\x3e"),
        new("C#", "\"\"\" + System.Environment.MachineName + @\"{\\u0022} */ #error x /* {x}"),
        new("path", "../../x/%2e%2e/C:\\x?y#z"),

        // What a spreadsheet runs.
        new("formula", "=HYPERLINK(\"https://x.example/\",\"x\")"),
        new("formula after a plus", "+1+cmd|' /C calc'!A0"),
        new("formula after a minus", "-2+3+cmd|' /C calc'!A0"),
        new("formula after an at sign", "@SUM(1+1)*cmd"),
        new("formula after a tab", "\t=1+1"),
        new("formula after a carriage return", "\r=1+1"),
        new("formula after an apostrophe", "'=1+1"),

        // What a terminal obeys.
        new("colour and erasure", "\u001b[31mred\u001b[0m\u001b[2J\u001b[1;1H" + PlainWords),
        new("title and link", "\u001b]0;title\u0007\u001b]8;;https://x.example\u0007x\u001b]8;;\u0007" + PlainWords),
        new("one-byte sequences", "\u009b31mred\u009d0;title\u009c"),
        new("control characters", "a\u0001b\u0007c\u0008d\u000be\u000cf\u007fg\u0085h" + PlainWords),
        new("end of text", "a\0b" + PlainWords),
        new("line feeds", "a\nb\r\nc\rd"),
        new("separators of lines and paragraphs", "a\u2028b\u2029c"),

        // What letters can do to one another.
        new("override of the direction", "abc\u202egnp.exe"),
        new("isolates left open", "a\u2067b\u2066c\u2068d"),
        new("embeddings left open", "a\u202bb\u202ac\u202dd"),
        new("marks of direction", "\u200fabc\u200e (1) \u061c 2"),
        new("Hebrew with numbers", "\u05e7\u05e4\u05d4 12 (3) \u05e7\u05e4\u05d4"),
        new("Arabic with numbers", "\u0642\u0647\u0648\u0629 12-3"),
        new("letters of no width", "a\u200bb\u200cc\u200dd\u2060e\ufefff\u00adg"),
        new("nothing but letters of no width", "\u2060\u200d\u2060"),
        new("tags that are not seen", "a\U000e0041\U000e0042b"),
        new("letters that look empty", "\u3164\u2800\u115f"),
        new("half a pair, the first", "a\ud83db"),
        new("half a pair, the second", "a\ude00b"),
        new("no characters", "a\ufffeb\uffffc"),
        new("family of one letter", "\U0001f468\u200d\U0001f469\u200d\U0001f467 \U0001f3f4"),
        new("pile of marks", "e" + new string('\u0301', 5_000) + "nd"),
        new("marks on every letter", string.Concat("coffee".Select(letter => letter + string.Concat(Enumerable.Range(0x300, 40).Select(mark => (char)mark))))),

        // Length.
        new("word of 100 kB", new string('W', 100_000)),
        new("sentence of 100 kB", string.Concat(Enumerable.Repeat("many words ", 9_091))),
        new("markup of 100 kB", string.Concat(Enumerable.Repeat("<b>", 33_334))),
        new("wide letters of 100 kB", new string('\u6c34', 33_334)),
    ];
}
