using System.Globalization;
using CsvHelper;

namespace TastingKit.Writing;

/// <summary>
/// Lays a log out as the canonical CSV files: every column of the kit in its order, then the log's own; UTF-8, line feeds, invariant numbers
/// in their shortest form that reads back the same. Cells that a spreadsheet would run as a formula are marked (<see cref="FormulaMark"/>).
/// </summary>
internal static class LogWriter
{
    private static readonly IReadOnlyList<WrittenColumn<Bag>> BagColumns =
    [
        new("bag_id", bag => bag.Id),
        new("coffee_id", bag => bag.Coffee.Id),
        new("roaster", bag => bag.Coffee.Roaster),
        new("coffee", bag => bag.Coffee.Name),
        new("country", bag => List(bag.Coffee.Countries)),
        new("region", bag => bag.Coffee.Region),
        new("producer", bag => bag.Coffee.Producer),
        new("lot", bag => bag.Coffee.Lot),
        new("harvest", bag => bag.Coffee.Harvest),
        new("variety", bag => bag.Coffee.Variety),
        new("process", bag => bag.Coffee.Process),
        new("fermentation", bag => bag.Coffee.Fermentation),
        new("added", bag => bag.Coffee.Added),
        new("decaf", bag => bag.Coffee.Decaf is { } decaf ? YesNo(decaf) : null),
        new("roast_level", bag => bag.RoastLevel),
        new("roast_for", bag => bag.RoastFor),
        new("roast_date", bag => Day(bag.RoastDate)),
        new("opened_on", bag => Day(bag.OpenedOn)),
        new("net_weight_g", bag => Number(bag.NetWeightGrams)),
        new("price", bag => bag.Price?.ToString(CultureInfo.InvariantCulture)),
        new("currency", bag => bag.Currency),
        new("obtained", bag => bag.Obtained),
    ];

    private static readonly IReadOnlyList<WrittenColumn<Tasting>> BeforeScores =
    [
        new("tasting_id", cup => cup.Id),
        new("bag_id", cup => cup.Bag.Id),
        new("tasted_at", cup => Moment(cup)),
        new("taster", cup => cup.Taster),
        new("session", cup => cup.Session),
        new("position", cup => cup.Position?.ToString(CultureInfo.InvariantCulture)),
        new("purpose", cup => PurposeWord(cup.Purpose)),
        new("failed", cup => cup.Failed ? YesNo(true) : null),
        new("brewer", cup => cup.Brewer),
        new("filter", cup => cup.Filter),
        new("grinder", cup => cup.Grinder),
        new("grind", cup => cup.Grind),
        new("water", cup => cup.Water),
        new("recipe", cup => cup.Recipe),
        new("recipe_from", cup => cup.RecipeFrom),
        new("dose_g", cup => Number(cup.DoseGrams)),
        new("water_g", cup => Number(cup.WaterGrams)),
        new("ratio", cup => Number(cup.StatedRatio)),
        new("yield_g", cup => Number(cup.YieldGrams)),
        new("water_temp", cup => cup.WaterCelsius is { } celsius ? Number(celsius) + "C" : null),
        new("brew_time", cup => BrewTime(cup.BrewTime)),
        new("tds_pct", cup => Number(cup.TdsPercent)),
        new("frozen_on", cup => Day(cup.FrozenOn)),
        new("thawed_on", cup => Day(cup.ThawedOn)),
        new("cup_temp", cup => cup.CupTemperature),
        new("blind_to", cup => Blind(cup.BlindTo)),
        new("score", cup => Number(cup.Score)),
    ];

    private static readonly IReadOnlyList<WrittenColumn<Tasting>> AfterScores =
    [
        new("notes", cup => List(cup.Notes)),
        new("guess_process", cup => cup.GuessedProcess),
        new("remark", cup => cup.Remark),
    ];

    private static readonly IReadOnlyList<WrittenColumn<Scale>> ScaleColumns =
    [
        new("attribute", scale => scale.Attribute.Name),
        new("kind", scale => scale.Kind == ScaleKind.JustRight ? "just-right" : scale.Kind.ToString().ToLowerInvariant()),
        new("min", scale => Number(scale.Min)),
        new("max", scale => Number(scale.Max)),
        new("step", scale => Number(scale.Step)),
    ];

    private static readonly IReadOnlyList<WrittenColumn<PublishedVerdict>> VerdictColumns =
    [
        new("published_on", verdict => Day(verdict.PublishedOn)),
        new("bag_id", verdict => verdict.BagId),
        new("score", verdict => Number(verdict.Score)),
        new("sentence", verdict => verdict.Sentence),
        new("disclosure", verdict => verdict.Disclosure),
        new("corrected_on", verdict => Day(verdict.CorrectedOn)),
    ];

    private static readonly IReadOnlyList<WrittenColumn<BlindTest>> BlindTestColumns =
    [
        new("test_id", test => test.Id),
        new("tested_on", test => Day(test.TestedOn)),
        new("protocol", test => test.Protocol),
        new("attribute", test => test.Attribute),
        new("bag_a", test => test.BagA),
        new("bag_b", test => test.BagB),
        new("trials", test => test.Trials.ToString(CultureInfo.InvariantCulture)),
        new("correct", test => test.Correct.ToString(CultureInfo.InvariantCulture)),
    ];

    private static readonly IReadOnlyList<WrittenColumn<EquipmentChange>> ChangeColumns =
    [
        new("changed_on", change => Day(change.ChangedOn)),
        new("what", change => change.What),
        new("from", change => change.From),
        new("to", change => change.To),
    ];

    private static readonly IReadOnlyList<WrittenColumn<VocabularyEntry>> VocabularyColumns =
    [
        new("kind", entry => entry.Kind.ToString().ToLowerInvariant()),
        new("written", entry => entry.Written),
        new("means", entry => entry.Means),
    ];

    /// <summary>Lays out every file of a log, those without a row too.</summary>
    public static IReadOnlyList<WrittenFile> Lay(TastingLog log) => [.. Tables(log).Select(File)];

    /// <summary>The cells of every file of a log, as they are before spreadsheets are thought of.</summary>
    public static IReadOnlyList<WrittenTable> Tables(TastingLog log)
    {
        var scales = log.StatedScales;
        var attributes = TastingAttribute.Defaults.Concat(log.Attributes).Distinct().ToList();
        // Without a scale a column that the kit has no name for would be read back as text.
        var unstated = attributes.Except(TastingAttribute.Defaults).Except(scales.Select(scale => scale.Attribute)).Select(Scale.Default);
        return
        [
            Table("bags.csv", log.Bags, [.. BagColumns, .. Others(log.Bags, bag => bag.OtherColumns)]),
            Table("tastings.csv", log.Tastings,
            [
                .. BeforeScores.Where(column => column.Header != "ratio" || log.Tastings.Any(cup => cup.StatedRatio is not null)),
                .. attributes.Select(attribute => new WrittenColumn<Tasting>(attribute.Name, cup => Number(cup.ValueOf(attribute)))),
                .. AfterScores,
                .. Others(log.Tastings, cup => cup.OtherColumns),
            ]),
            Scales([.. scales, .. unstated]),
            Table("verdicts.csv", log.PublishedVerdicts, VerdictColumns),
            Table("blind-tests.csv", log.BlindTests, BlindTestColumns),
            Table("changes.csv", log.Changes, ChangeColumns),
            Table("vocabulary.csv", log.Vocabulary.Own, VocabularyColumns),
        ];
    }

    /// <summary>The cells of <c>scales.csv</c>.</summary>
    public static WrittenTable Scales(IReadOnlyList<Scale> scales) => Table("scales.csv", scales, ScaleColumns);

    private static IEnumerable<WrittenColumn<T>> Others<T>(IEnumerable<T> rows, Func<T, IReadOnlyDictionary<string, string>> others) =>
        rows.SelectMany(row => others(row).Keys).Distinct(StringComparer.Ordinal)
            .Select(header => new WrittenColumn<T>(header, row => others(row).GetValueOrDefault(header)));

    private static WrittenTable Table<T>(string name, IReadOnlyList<T> rows, IReadOnlyList<WrittenColumn<T>> columns) =>
        new(name, [.. columns.Select(column => column.Header)], [.. rows.Select(row => (IReadOnlyList<string?>)[.. columns.Select(column => column.Text(row))])]);

    /// <summary>The bytes of a table.</summary>
    public static WrittenFile File(WrittenTable table)
    {
        using var bytes = new MemoryStream();
        var options = new CsvWriterOptions { NewLine = "\n", Injection = CsvInjection.None };
        using (var csv = CsvWriter.Create(bytes, options, leaveOpen: true))
        {
            csv.WriteHeader([.. table.Headers.Select(header => FormulaMark.On(header)!)]);
            var cells = new string?[table.Headers.Count];
            foreach (var row in table.Rows)
            {
                for (var i = 0; i < cells.Length; i++)
                    cells[i] = FormulaMark.On(row[i]);
                csv.WriteRecord(cells);
            }

            csv.Flush();
        }

        return new WrittenFile(table.Name, bytes.ToArray(), table.Rows.Count);
    }

    private static string? List(IReadOnlyList<string> parts) => parts.Count == 0 ? null : string.Join("; ", parts);

    private static string YesNo(bool value) => value ? "yes" : "no";

    private static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string? Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture);

    private static string Moment(Tasting cup)
    {
        var format = !cup.HasTimeOfDay ? "yyyy-MM-dd"
            : cup.TastedAt.Ticks % TimeSpan.TicksPerMinute == 0 ? "yyyy-MM-dd'T'HH:mm"
            : cup.TastedAt.Ticks % TimeSpan.TicksPerSecond == 0 ? "yyyy-MM-dd'T'HH:mm:ss"
            : "yyyy-MM-dd'T'HH:mm:ss.fffffff";
        return cup.TastedAt.ToString(format, CultureInfo.InvariantCulture);
    }

    private static string? BrewTime(TimeSpan? time)
    {
        if (time is not { } brewed)
            return null;
        var minutes = (long)brewed.TotalMinutes;
        var rest = brewed - TimeSpan.FromMinutes(minutes);
        var seconds = rest.ToString(rest.Ticks % TimeSpan.TicksPerSecond == 0 ? "ss" : @"ss\.fffffff", CultureInfo.InvariantCulture);
        return FormattableString.Invariant($"{minutes}:{seconds}");
    }

    private static string PurposeWord(Purpose purpose) => purpose == Purpose.DialIn ? "dial-in" : purpose.ToString().ToLowerInvariant();

    private static string? Blind(BlindTo hidden) => hidden == BlindTo.Nothing
        ? null
        : string.Join("; ", Enum.GetValues<BlindTo>().Where(one => one != BlindTo.Nothing && hidden.HasFlag(one)).Select(one => one.ToString().ToLowerInvariant()));
}

/// <summary>A column as it is written.</summary>
/// <param name="Header">Its header.</param>
/// <param name="Text">A row's cell; <see langword="null"/> for an empty one.</param>
internal sealed record WrittenColumn<T>(string Header, Func<T, string?> Text);

/// <summary>The cells of a file.</summary>
/// <param name="Name">The file's name.</param>
/// <param name="Headers">Its headers.</param>
/// <param name="Rows">A cell for each header; <see langword="null"/> for an empty one.</param>
internal sealed record WrittenTable(string Name, IReadOnlyList<string> Headers, IReadOnlyList<IReadOnlyList<string?>> Rows);

/// <summary>A file laid out.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Bytes">What it holds.</param>
/// <param name="Rows">Rows below the header.</param>
internal sealed record WrittenFile(string Name, byte[] Bytes, int Rows);
