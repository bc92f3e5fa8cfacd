using System.Text;
using TastingKit.Starting;
using TastingKit.Writing;

namespace TastingKit;

/// <summary>Lays down an empty log to begin with.</summary>
public static class NewLog
{
    private const string Readme = "README.md";
    private const string Example = "example";

    /// <summary>
    /// Writes a folder with the headers of every file of a log, the default scales, a README with a line on each column, and a small filled
    /// log in the folder <c>example</c>. Both logs are read without any report.
    /// </summary>
    /// <param name="folder">The folder; made if it is not there. One that is not there appears with all its files at once.</param>
    /// <param name="overwrite">Whether files of these names may be replaced.</param>
    /// <exception cref="IOException">A file is there and may not be replaced, or the folder can't be written.</exception>
    public static void Write(string folder, bool overwrite = false)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        var scales = LogWriter.File(LogWriter.Scales([Scale.Default(TastingAttribute.Score), .. TastingAttribute.Defaults.Select(Scale.Default)]));
        WholeFiles.Write(
            folder,
            [
                .. ColumnGuide.Files.Select(file => file.Name == scales.Name ? scales : Headers(file)),
                .. ColumnGuide.Files.Select(file => (file.Name == scales.Name ? scales : Filled(file)) with { Name = Path.Combine(Example, file.Name) }),
                new WrittenFile(Readme, Encoding.UTF8.GetBytes(Explanation()), 0),
            ],
            overwrite);
    }

    private static WrittenFile Headers(GuidedFile file) => LogWriter.File(new WrittenTable(file.Name, [.. file.Columns.Select(column => column.Column)], []));

    private static WrittenFile Filled(GuidedFile file)
    {
        var resource = $"TastingKit.Log.Starting.Example.{file.Name}";
        using var stream = typeof(NewLog).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"{resource} is missing from the assembly.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return new WrittenFile(file.Name, bytes.ToArray(), 1);
    }

    private static string Explanation()
    {
        var page = new StringBuilder("""
            # A log of coffee tastings

            Plain CSV files for any spreadsheet. Columns may stand in any order, columns of your own are kept, and what you don't know stays empty.
            A filled log is in the folder `example`; its roasters and coffees are invented. `tastingkit check` says what can't be read, row by row.


            """);
        foreach (var file in ColumnGuide.Files)
        {
            page.Append($"## {file.Name}\n\n{file.Purpose}\n\n| column | what it holds |\n|---|---|\n");
            foreach (var (column, meaning) in file.Columns)
                page.Append($"| {column} | {meaning} |\n");
            page.Append('\n');
        }

        return page.Append("""
            ## If you need them

            - `columns.csv` (file, written, means): headers of your own for columns above.
            - `vocabulary.csv` (kind, written, means): your words for a process, country, brewer, roaster, variety or note.
            - `accepted.csv`: doubts that you looked at and that are right after all. Take their lines over from the list that
              `tastingkit check --problems` writes; a confirmation holds until a value it rests on changes.

            Many cups in one day are much caffeine, and a coffee with something added may hold an allergen: ask a doctor, follow the label and local advice.

            """).ToString();
    }
}
