using TastingKit.Reading;
using TastingKit.Writing;

namespace TastingKit.Joining;

/// <summary>Reads several logs as one.</summary>
internal static class LogJoin
{
    /// <summary>Reads and joins them, in the order given.</summary>
    /// <exception cref="LogReadException">One can't be read at all.</exception>
    public static TastingLog Read(IReadOnlyList<string> foldersOrFiles, WorkWatch watch) => Read(foldersOrFiles.Select(folder => LogFiles.At(folder, watch)), watch);

    /// <summary>The same of files that are held already.</summary>
    internal static TastingLog Read(IEnumerable<LogFiles> logs, WorkWatch watch)
    {
        var folders = new List<FolderLog>();
        foreach (var files in logs)
        {
            var trace = new ReadingTrace(keepCells: false);
            var log = LogReader.Read(files, watch.CancellationToken, trace, watch);
            folders.Add(new FolderLog(Label(log.Name, folders), files, log, trace));
        }

        watch.Report(new WorkProgress("making one log of them", null));
        return Join(folders);
    }

    private static string Label(string name, List<FolderLog> folders)
    {
        var label = name;
        for (var i = 2; folders.Exists(folder => folder.Label == label); i++)
            label = FormattableString.Invariant($"{name} ({i})");
        return label;
    }

    private static TastingLog Join(IReadOnlyList<FolderLog> folders)
    {
        var scales = new AlignedScales(folders);
        var bags = new JoinedBags();
        foreach (var folder in folders)
            bags.Add(folder);

        var contents = new LogContents
        {
            Name = string.Join(" + ", folders.Select(folder => folder.Label)),
            Bags = bags.Bags,
            Tastings = Cups(folders, bags, scales),
            Scales = scales.Scales,
            PublishedVerdicts = Once(folders, VerdictTable.File, folder => folder.Log.PublishedVerdicts.Select(verdict =>
                verdict with { BagId = bags.IdOf(folder, verdict.BagId), Score = scales.MovedScore(folder, verdict.Score) })),
            BlindTests = Tests(folders, bags),
            Changes = Once(folders, ChangeTable.File, folder => folder.Log.Changes),
            // The last year's words come first.
            Vocabulary = Vocabulary.Shipped.With([.. folders.Reverse().SelectMany(folder => folder.Log.Vocabulary.Own)]),
        };
        return new TastingLog(contents with
        {
            Problems = [.. folders.SelectMany(folder => folder.Problems)],
            Confirmed = [.. folders.SelectMany(folder => folder.Confirmed)],
            Accounts = [.. folders.SelectMany(folder => folder.Accounts)],
        });
    }

    private static IReadOnlyList<Tasting> Cups(IReadOnlyList<FolderLog> folders, JoinedBags bags, AlignedScales scales)
    {
        var cups = new JoinedCups();
        var byId = new Dictionary<string, Tasting>(StringComparer.Ordinal);
        foreach (var folder in folders)
        {
            var reused = new List<string>();
            foreach (var cup in folder.Log.Tastings)
            {
                var moved = scales.Moved(folder, cup with { Bag = bags.Of(folder, cup.Bag.Id) });
                if (!folder.IsNamedByLine(cup) && byId.TryGetValue(cup.Id, out var earlier) && LogDifference.AreSame(earlier, moved))
                {
                    folder.OnCup(cup, Severity.Rejected, "tasting_id", cup.Id, new CellFault(Rule.DuplicateId,
                        "An earlier folder has this very cup; it stands in the log once.", "each cup in one folder"));
                    continue;
                }

                var id = JoinedBags.Unused(folder, cup.Id, byId.ContainsKey, folder.IsNamedByLine(cup) ? [] : reused);
                var own = moved with { Id = id };
                byId.Add(id, own);
                cups.Add(folder, cup, own);
            }

            folder.IdsReused(folder.CupsFile, "tasting_id", reused);
        }

        cups.Check();
        return cups.Cups;
    }

    private static List<BlindTest> Tests(IReadOnlyList<FolderLog> folders, JoinedBags bags)
    {
        var tests = new Dictionary<string, BlindTest>(StringComparer.Ordinal);
        foreach (var folder in folders)
        {
            var reused = new List<string>();
            var repeated = 0;
            foreach (var test in folder.Log.BlindTests)
            {
                var moved = test with { BagA = bags.IdOf(folder, test.BagA), BagB = bags.IdOf(folder, test.BagB) };
                if (tests.TryGetValue(test.Id, out var earlier) && earlier == moved)
                {
                    repeated++;
                    continue;
                }

                var id = JoinedBags.Unused(folder, test.Id, tests.ContainsKey, reused);
                tests.Add(id, moved with { Id = id });
            }

            folder.IdsReused(BlindTestTable.File, "test_id", reused);
            folder.RowsRepeated(BlindTestTable.File, repeated);
        }

        return [.. tests.Values];
    }

    /// <summary>The rows of all folders, those that an earlier folder has too left out.</summary>
    private static List<T> Once<T>(IReadOnlyList<FolderLog> folders, string file, Func<FolderLog, IEnumerable<T>> rowsOf)
    {
        var all = new List<T>();
        foreach (var folder in folders)
        {
            var earlier = all.ToHashSet();
            T[] rows = [.. rowsOf(folder)];
            T[] own = [.. rows.Where(row => !earlier.Contains(row))];
            folder.RowsRepeated(file, rows.Length - own.Length);
            all.AddRange(own);
        }

        return all;
    }
}
