using System.Globalization;
using System.Text.Json;

namespace TastingKit.Charts.Tests;

/// <summary>
/// The palette as eyes see it: colour distance CIEDE2000 (Sharma, Wu and Dalal 2005) under the full loss of each kind of cone,
/// simulated with the matrices of Machado, Oliveira and Fernandes (2009), and contrast by WCAG 2.
/// </summary>
public sealed class PaletteTests
{
    private const string LightPage = "#ffffff";
    private const string DarkPage = "#16191d";

    private static readonly Dictionary<string, double[,]> Sight = new()
    {
        ["full"] = new double[,] { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
        ["protanopia"] = new double[,] { { 0.152286, 1.052583, -0.204868 }, { 0.114503, 0.786281, 0.099216 }, { -0.003882, -0.048116, 1.051998 } },
        ["deuteranopia"] = new double[,] { { 0.367322, 0.860646, -0.227968 }, { 0.280085, 0.672501, 0.047413 }, { -0.011820, 0.042940, 0.968881 } },
        ["tritanopia"] = new double[,] { { 1.255528, -0.076749, -0.178779 }, { -0.078411, 0.930809, 0.147602 }, { 0.004733, 0.691367, 0.303900 } },
    };

    [Theory]
    [InlineData("full")]
    [InlineData("protanopia")]
    [InlineData("deuteranopia")]
    [InlineData("tritanopia")]
    public void Every_pair_of_colours_is_told_apart(string sight)
    {
        foreach (var (i, first) in Palette.All.Index())
        {
            foreach (var second in Palette.All.Skip(i + 1))
            {
                var distance = Distance(Lab(Seen(first, sight)), Lab(Seen(second, sight)));
                Assert.True(distance >= 18, $"{first} and {second} are {distance:F1} apart under {sight}.");
            }
        }
    }

    [Fact]
    public void Every_colour_stands_out_from_the_light_page_and_the_dark_one()
    {
        foreach (var colour in Palette.All)
        {
            Assert.True(Contrast(colour, LightPage) >= 3, $"{colour} has a contrast of {Contrast(colour, LightPage):F2} on the light page.");
            Assert.True(Contrast(colour, DarkPage) >= 3, $"{colour} has a contrast of {Contrast(colour, DarkPage):F2} on the dark page.");
        }
    }

    [Fact]
    public void The_pages_are_those_of_the_stylesheet()
    {
        Assert.Contains($"--tk-paper: {LightPage};", Stylesheet.Css, StringComparison.Ordinal);
        Assert.Contains($"--tk-paper: {DarkPage};", Stylesheet.Css, StringComparison.Ordinal);
    }

    [Fact]
    public void Red_and_green_of_one_lightness_would_fail() =>
        Assert.True(Distance(Lab(Seen("#b05a3c", "deuteranopia")), Lab(Seen("#7a7a32", "deuteranopia"))) < 18);

    // Pairs 1, 7 and 17 of the test data published with the formula.
    [Theory]
    [InlineData(50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425)]
    [InlineData(50, 0, 0, 50, -1, 2, 2.3669)]
    [InlineData(50, 2.5, 0, 73, 25, -18, 27.1492)]
    public void The_distance_agrees_with_published_pairs(double l1, double a1, double b1, double l2, double a2, double b2, double expected) =>
        Assert.Equal(expected, Distance((l1, a1, b1), (l2, a2, b2)), 4);

    [Fact]
    public void Marks_that_differ_in_colour_differ_in_shape()
    {
        Chart[] charts =
        [
            SampleResults.Favourites().Chart(), SampleResults.Favourites().TopChart(), SampleResults.Groups(Factor.Process).Chart(), SampleResults.Methods().Chart(),
            SampleResults.Rest().Chart(), SampleResults.Calendar(changes: SampleResults.Changes).Chart(), SampleResults.Year().NotesChart(),
        ];
        foreach (var chart in charts)
        {
            var marks = Figure.Of(chart).Traces.Where(trace => trace.TryGetProperty("marker", out _) && trace.GetProperty("type").GetString() == "scatter" && !IsUnseen(trace))
                .Select(trace => trace.GetProperty("marker").TryGetProperty("symbol", out var symbol) ? symbol.GetString() : "circle").ToArray();
            Assert.NotEmpty(marks);
            Assert.Equal(marks.Length, marks.Distinct().Count());
        }
    }

    private static bool IsUnseen(JsonElement trace) => trace.GetProperty("marker").TryGetProperty("opacity", out var opacity) && opacity.ValueKind == JsonValueKind.Number && opacity.GetDouble() == 0;

    private static double[] Linear(string colour) =>
        [.. Enumerable.Range(0, 3).Select(i => int.Parse(colour.AsSpan((2 * i) + 1, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0)
            .Select(c => c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4))];

    private static double[] Seen(string colour, string sight)
    {
        var (light, matrix) = (Linear(colour), Sight[sight]);
        return [.. Enumerable.Range(0, 3).Select(r => Math.Clamp(Enumerable.Range(0, 3).Sum(c => matrix[r, c] * light[c]), 0, 1))];
    }

    private static double Contrast(string first, string second)
    {
        static double Luminance(double[] light) => (0.2126 * light[0]) + (0.7152 * light[1]) + (0.0722 * light[2]);
        var (a, b) = (Luminance(Linear(first)), Luminance(Linear(second)));
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static (double L, double A, double B) Lab(double[] light)
    {
        static double F(double t) => t > 216.0 / 24389 ? Math.Cbrt(t) : ((24389.0 / 27 * t) + 16) / 116;
        var x = F(((0.4124564 * light[0]) + (0.3575761 * light[1]) + (0.1804375 * light[2])) / 0.95047);
        var y = F((0.2126729 * light[0]) + (0.7151522 * light[1]) + (0.0721750 * light[2]));
        var z = F(((0.0193339 * light[0]) + (0.1191920 * light[1]) + (0.9503041 * light[2])) / 1.08883);
        return ((116 * y) - 16, 500 * (x - y), 200 * (y - z));
    }

    private static double Distance((double L, double A, double B) first, (double L, double A, double B) second)
    {
        static double Seventh(double c) => Math.Sqrt(Math.Pow(c, 7) / (Math.Pow(c, 7) + Math.Pow(25, 7)));
        static double Cos(double degrees) => Math.Cos(degrees * Math.PI / 180);
        static double Hue(double a, double b) => a == 0 && b == 0 ? 0 : ((Math.Atan2(b, a) * 180 / Math.PI) + 360) % 360;
        var stretch = 1 + (0.5 * (1 - Seventh((Math.Sqrt((first.A * first.A) + (first.B * first.B)) + Math.Sqrt((second.A * second.A) + (second.B * second.B))) / 2)));
        var (a1, a2) = (stretch * first.A, stretch * second.A);
        var (c1, c2) = (Math.Sqrt((a1 * a1) + (first.B * first.B)), Math.Sqrt((a2 * a2) + (second.B * second.B)));
        var (h1, h2) = (Hue(a1, first.B), Hue(a2, second.B));
        var isGrey = c1 * c2 == 0;
        var turn = isGrey ? 0 : h2 - h1 > 180 ? h2 - h1 - 360 : h2 - h1 < -180 ? h2 - h1 + 360 : h2 - h1;
        var hue = isGrey ? h1 + h2 : Math.Abs(h1 - h2) <= 180 ? (h1 + h2) / 2 : h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
        var (lightness, chroma) = ((first.L + second.L) / 2, (c1 + c2) / 2);
        var t = 1 - (0.17 * Cos(hue - 30)) + (0.24 * Cos(2 * hue)) + (0.32 * Cos((3 * hue) + 6)) - (0.2 * Cos((4 * hue) - 63));
        var away = (lightness - 50) * (lightness - 50);
        var dl = (second.L - first.L) / (1 + (0.015 * away / Math.Sqrt(20 + away)));
        var dc = (c2 - c1) / (1 + (0.045 * chroma));
        var dh = 2 * Math.Sqrt(c1 * c2) * Math.Sin(turn * Math.PI / 360) / (1 + (0.015 * chroma * t));
        var rotation = -Math.Sin(60 * Math.Exp(-Math.Pow((hue - 275) / 25, 2)) * Math.PI / 180) * 2 * Seventh(chroma);
        return Math.Sqrt((dl * dl) + (dc * dc) + (dh * dh) + (rotation * dc * dh));
    }
}
