using TastingKit.Charts;

namespace TastingKit.Pages.Tests;

/// <summary>This process holds the library, its rendering, its charts and its pages, and no kernel: what works here outlives it.</summary>
public sealed class WithoutAKernelTests
{
    private const string Kernel = "Microsoft.DotNet.Interactive";

    [Fact]
    public void Every_value_that_a_notebook_shows_gets_onto_a_page_where_no_kernel_can_be_loaded()
    {
        var folder = Directory.CreateTempSubdirectory("tastingkit-kernelless-");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "bags.csv"), "bag_id\nB1\n");
            File.WriteAllText(Path.Combine(folder.FullName, "tastings.csv"), "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-12 08:30,7.5\n");
            var log = TastingLog.Read(folder.FullName);
            object[] values =
            [
                NotebookPageTests.SmallChart(), log.Favourites(), log.Favourites().Table, log, log.Problems, log.ToDataFrame(), "text", 1.5, true, 'c',
                new DateOnly(2025, 3, 1), new TimeOnly(8, 30), new DateTime(2025, 3, 1), TimeSpan.FromMinutes(3), Severity.Rejected,
            ];
            var recording = new PageRecording("n.ipynb");
            foreach (var value in values)
            {
                recording.Code("value", []);
                recording.Show(isResult: true, ShownData.Of(value));
            }

            var page = recording.Write(null);
            Assert.Contains("<figure class=\"tk tk-chart", page, StringComparison.Ordinal);
            Assert.Contains(">2025-03-01</pre>", page, StringComparison.Ordinal);
            // Each display of the table is among the values, so none is left untried.
            Assert.All(ValueDisplay.All.Where(display => !display.Type.IsPrimitive && display.Type != typeof(decimal)), display => Assert.Contains(values, display.Type.IsInstanceOfType));
        }
        finally
        {
            folder.Delete(recursive: true);
        }

        Assert.Empty(Directory.GetFiles(AppContext.BaseDirectory, Kernel + "*"));
        Assert.DoesNotContain(AppDomain.CurrentDomain.GetAssemblies(), assembly => assembly.GetName().Name!.StartsWith(Kernel, StringComparison.Ordinal));
        Assert.Throws<FileNotFoundException>(() => System.Reflection.Assembly.Load(Kernel));
    }
}
