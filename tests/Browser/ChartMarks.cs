namespace TastingKit.Tests.Browsing;

/// <summary>The marks of the charts on an open page, as JavaScript functions of a chart's number among those drawn, or of a mark.</summary>
internal static class ChartMarks
{
    /// <summary>The marks of a chart that say something when pointed at, but for those that lie on one another: of them any may answer.</summary>
    internal const string All =
        """
        (chart => [...document.querySelectorAll('figure[data-state=drawn]')[chart].querySelectorAll('.trace')]
          .filter(trace => trace.__data__?.[0]?.trace?.hovertext)
          .flatMap(trace => [...trace.querySelectorAll('.point')])
          .map(mark => ({ mark, box: mark.getBoundingClientRect() }))
          .filter(one => one.box.width > 0)
          .filter((one, _, all) => all.every(other => other === one || Math.hypot(other.box.x - one.box.x, other.box.y - one.box.y) > 6))
          .map(one => one.mark))
        """;

    /// <summary>What a mark was given to say, as the text that a reader sees.</summary>
    internal const string Meant =
        """
        (mark => {
          const trace = mark.closest('.trace').__data__[0].trace;
          const text = document.createElement('span');
          text.innerHTML = trace.hovertext[mark.__data__.i].replaceAll('<br>', '');
          return text.textContent;
        })
        """;

    /// <summary>What a chart says of the mark that is pointed at; empty if it says nothing.</summary>
    internal const string Said =
        "(chart => [...document.querySelectorAll('figure[data-state=drawn]')[chart].querySelectorAll('.hoverlayer text')].map(text => text.textContent).join('|'))";

    /// <summary>Moves the mouse away, and then to the middle of a mark, scrolled into view if need be.</summary>
    /// <param name="page">The page.</param>
    /// <param name="chart">The chart's number among those drawn, from 0.</param>
    /// <param name="mark">The mark's number among <see cref="All"/>, from 0.</param>
    internal static async Task PointAtAsync(BrowserPage page, int chart, int mark)
    {
        var at = await page.EvaluateAsync($"(mark => {{ mark.scrollIntoView({{ block: 'center' }}); const box = mark.getBoundingClientRect(); return [box.x + box.width / 2, box.y + box.height / 2]; }})({All}({chart})[{mark}])");
        await page.PointAtAsync(1, 1);
        await page.PointAtAsync((double)at![0]!, (double)at[1]!);
    }
}
