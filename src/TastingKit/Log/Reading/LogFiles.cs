using System.Collections.ObjectModel;
using TastingKit.Writing;

namespace TastingKit.Reading;

/// <summary>The files of a log by name, wherever they are kept.</summary>
internal sealed class LogFiles
{
    private readonly Dictionary<string, Func<SourceFile>> _files;

    private LogFiles(string name, string place, IEnumerable<KeyValuePair<string, Func<SourceFile>>> files)
    {
        Name = name;
        Place = place;
        // Names differ in case between the systems that people copy folders across; the first of two such names in order is taken.
        _files = new Dictionary<string, Func<SourceFile>>(StringComparer.OrdinalIgnoreCase);
        foreach (var (file, open) in files.OrderBy(file => file.Key, StringComparer.Ordinal))
            _files.TryAdd(file, open);
    }

    /// <summary>The log's name.</summary>
    public string Name { get; }

    /// <summary>Where the files are, for messages.</summary>
    public string Place { get; }

    /// <summary>The extension of the workbook that the files are sheets of; <see langword="null"/> for files of text.</summary>
    private string? WorkbookExtension { get; init; }

    /// <summary>What a workbook calls the sheets that the files are.</summary>
    private IReadOnlyDictionary<string, string> Sheets { get; init; } = ReadOnlyDictionary<string, string>.Empty;

    /// <summary>
    /// What reports call a file: its name, behind that of its folder where there are several; for a sheet the workbook and the sheet, as in
    /// <c>my-year.xlsx/tastings</c>.
    /// </summary>
    /// <param name="file">The file's name.</param>
    /// <param name="label">What tells this log from others; <see langword="null"/> where it is the only one.</param>
    public string InReports(string file, string? label = null) =>
        WorkbookExtension is not null ? $"{label ?? Name}{WorkbookExtension}/{Sheets.GetValueOrDefault(file) ?? Path.GetFileNameWithoutExtension(file)}"
        : label is null ? file : $"{label}/{file}";

    /// <summary>The names of the CSV files, in order.</summary>
    public IEnumerable<string> Names => _files.Keys.Order(StringComparer.OrdinalIgnoreCase);

    /// <summary>The files that a write has finished and not put in their places, and which are read where they lie.</summary>
    public IReadOnlyList<string> Pending { get; init; } = [];

    /// <summary>Whether there is a file of this name, case ignored.</summary>
    public bool Has(string name) => _files.ContainsKey(name);

    /// <summary>A file's name as it is written where it is kept.</summary>
    public string NameAsWritten(string name) => _files.Keys.First(file => file.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Reads a file into memory.</summary>
    public SourceFile Open(string name) => _files[name]();

    /// <summary>The files that a log may have, the ones with cups and bags among them.</summary>
    private static IReadOnlyList<string> KnownNames { get; } =
    [
        "bags.csv", "tastings.csv", ScaleTable.File, VerdictTable.File, BlindTestTable.File, ChangeTable.File, ColumnMapTable.File, VocabularyTable.File, AcceptedTable.File,
    ];

    /// <summary>Finds the CSV files of a folder, or takes one file: of text, or a workbook with a sheet for each.</summary>
    /// <param name="folderOrFile">The folder or file.</param>
    /// <param name="watch">Is told of the opening of a workbook, and may end it.</param>
    /// <exception cref="LogReadException">There is no such folder or file.</exception>
    public static LogFiles At(string folderOrFile, WorkWatch watch)
    {
        var full = Path.GetFullPath(folderOrFile);
        if (File.Exists(full) && Workbook.Is(full))
            return OfWorkbook(full, folderOrFile, watch);
        if (File.Exists(full))
            return new LogFiles(Path.GetFileNameWithoutExtension(full), folderOrFile, [Entry(full)]);
        if (!Directory.Exists(full))
        {
            throw new LogReadException(
                $"There is no folder or file '{folderOrFile}'. A folder that holds bags.csv and tastings.csv, or one CSV file, would be right.");
        }

        try
        {
            var pending = WholeFiles.Pending(full).Where(IsCsv).ToList();
            var entries = Directory.EnumerateFiles(full).Where(path => IsCsv(path) && !pending.Contains(Path.GetFileName(path))).Select(path => Entry(path))
                .Concat(pending.Select(name => Entry(Path.Combine(full, name + WholeFiles.Unfinished), name)));
            var files = entries.ToList();
            // "~$" begins the name of the file that a spreadsheet lays beside an open workbook.
            if (files.Count == 0 && Directory.EnumerateFiles(full).Where(path => Workbook.Is(path) && !Path.GetFileName(path).StartsWith("~$", StringComparison.Ordinal)).ToList() is [var workbook])
                return OfWorkbook(workbook, folderOrFile, watch);
            return new LogFiles(new DirectoryInfo(full).Name, folderOrFile, files) { Pending = pending };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogReadException($"The folder '{folderOrFile}' can't be read: {e.Message}", e);
        }
    }

    private static LogFiles OfWorkbook(string path, string place, WorkWatch watch)
    {
        var sheets = Workbook.Sheets(path, KnownNames, watch);
        return new LogFiles(Path.GetFileNameWithoutExtension(path), place, sheets.Select(sheet => KeyValuePair.Create<string, Func<SourceFile>>(sheet.Name, () => sheet)))
        {
            WorkbookExtension = Path.GetExtension(path),
            Sheets = sheets.DistinctBy(sheet => sheet.Name).ToDictionary(sheet => sheet.Name, sheet => sheet.Sheet!, StringComparer.OrdinalIgnoreCase),
        };
    }

    /// <summary>Takes files that are in memory.</summary>
    public static LogFiles InMemory(string name, IEnumerable<KeyValuePair<string, ReadOnlyMemory<byte>>> files) =>
        new(name, name, files.Select(file => KeyValuePair.Create<string, Func<SourceFile>>(file.Key, () => SourceFile.FromBytes(file.Key, file.Value))));

    private static bool IsCsv(string path) => Path.GetExtension(path).Equals(".csv", StringComparison.OrdinalIgnoreCase);

    private static KeyValuePair<string, Func<SourceFile>> Entry(string path, string? name = null) =>
        KeyValuePair.Create(name ?? Path.GetFileName(path), () => SourceFile.Open(path, name));
}
