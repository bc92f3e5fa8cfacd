using System.IO.Compression;
using System.Text.RegularExpressions;

namespace TastingKit.Charts.Tests;

public sealed class PlotlyLoaderTests
{
    [Fact]
    public void The_packed_script_is_the_one_that_Plotly_NET_was_made_for()
    {
        var packed = Convert.FromBase64String(Regex.Match(PlotlyLoader.Html, "packed = '([^']+)'").Groups[1].Value);
        using var unpacked = new MemoryStream();
        using (var gzip = new GZipStream(new MemoryStream(packed), CompressionMode.Decompress))
            gzip.CopyTo(unpacked);

        var assembly = typeof(Plotly.NET.Trace).Assembly;
        var name = Assert.Single(assembly.GetManifestResourceNames(), n => Regex.IsMatch(n, @"plotly-[\d.]+\.min\.js$"));
        using var expected = new MemoryStream();
        assembly.GetManifestResourceStream(name)!.CopyTo(expected);
        Assert.True(unpacked.ToArray().AsSpan().SequenceEqual(expected.ToArray()), $"The packed script is not {name}.");
    }

    [Fact]
    public void The_loader_is_one_script_that_names_no_address()
    {
        Assert.Matches(@"^<script>\n[^<]*</script>\n$", PlotlyLoader.Html.Replace(" < ", " ", StringComparison.Ordinal));
        Assert.DoesNotContain("//www", PlotlyLoader.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("http", PlotlyLoader.Html, StringComparison.Ordinal);
        Assert.InRange(PlotlyLoader.Html.Length, 1_000_000, 1_450_000);
    }
}
