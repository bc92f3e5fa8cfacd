namespace TastingKit.Reading;

/// <summary>What one column of a file is read as.</summary>
/// <param name="Header">The header as written, or the name given to a column that has none.</param>
/// <param name="Column">The column of the kit it is; <see langword="null"/> for one that the kit has no name for.</param>
/// <param name="Unit">The unit that the header states.</param>
/// <param name="IsNameless">Whether no header is written.</param>
internal sealed record BoundField<TRow>(string Header, Column<TRow>? Column, string? Unit, bool IsNameless);

/// <summary>Finds out which column of the kit each header of a file is.</summary>
internal sealed class HeaderBinding<TRow>
{
    private readonly Dictionary<string, (Column<TRow> Column, string? Unit)> _known = new(StringComparer.Ordinal);
    private readonly IReadOnlyList<Column<TRow>> _columns;
    private readonly ColumnMap _map;
    private readonly string _file;

    /// <summary>Prepares for files of one kind.</summary>
    /// <param name="columns">The columns such a file can have.</param>
    /// <param name="map">The user's own headers.</param>
    /// <param name="file">The file's name, as the map knows it.</param>
    public HeaderBinding(IReadOnlyList<Column<TRow>> columns, ColumnMap map, string file)
    {
        (_columns, _map, _file) = (columns, map, file);
        foreach (var column in columns)
            _known.TryAdd(Words.Folded(column.Name), (column, null));
        // A canonical name goes before any alias, so that an alias never takes a header from it.
        foreach (var column in columns)
        {
            foreach (var alias in column.AlsoWritten)
                _known.TryAdd(Words.Folded(alias.Header), (column, alias.Unit));
        }
    }

    /// <summary>Whether a header is one of the kit's, for telling the delimiter.</summary>
    public bool Knows(string header) => TryKnown(_map.Meaning(_file, header) ?? header, out _);

    /// <summary>The column of a header, which may state a unit behind its words: <c>Dose (oz)</c>, <c>Water temp [°F]</c>.</summary>
    private bool TryKnown(string header, out (Column<TRow> Column, string? Unit) known)
    {
        if (_known.TryGetValue(Words.Folded(header), out known))
            return true;
        var open = header.IndexOfAny(['(', '[']);
        if (open <= 0 || header[^1] is not (')' or ']') || HeaderUnit.Of(header[(open + 1)..^1]) is not { } unit || !_known.TryGetValue(Words.Folded(header[..open]), out known))
            return false;
        known.Unit = unit;
        return true;
    }

    /// <summary>Binds the headers.</summary>
    /// <exception cref="LogReadException">A required column is missing.</exception>
    public BoundField<TRow>[] Bind(IReadOnlyList<string> headers, FileReports reports, int line)
    {
        var fields = new BoundField<TRow>[headers.Count];
        var taken = new HashSet<Column<TRow>>();
        var names = new HeaderNames();
        // Headers that are canonical as they stand come first: an alias must not take their column.
        foreach (var canonicalOnly in (ReadOnlySpan<bool>)[true, false])
        {
            for (var i = 0; i < headers.Count; i++)
            {
                if (fields[i] is not null || headers[i].Length == 0)
                    continue;
                var meant = _map.Meaning(_file, headers[i]) ?? headers[i];
                if (!TryKnown(meant, out var known) || (canonicalOnly && Words.Folded(meant) != Words.Folded(known.Column.Name)) || !taken.Add(known.Column))
                    continue;
                fields[i] = new BoundField<TRow>(headers[i], known.Column, known.Unit, false);
                names.Unused(headers[i]);
                if (headers[i] != known.Column.Name)
                {
                    reports.AboutFile(line, headers[i], headers[i], new CellFault(Rule.HeaderReadAs,
                        $"The column was read as {known.Column.Name}{(known.Unit is { } unit ? $", its numbers in {unit}" : "")}.", $"the header {known.Column.Name}"));
                }
            }
        }

        for (var i = 0; i < headers.Count; i++)
            fields[i] ??= Unknown(headers, i, names, reports, line);
        RequireColumns(headers, taken, line);
        return fields;
    }

    private BoundField<TRow> Unknown(IReadOnlyList<string> headers, int index, HeaderNames names, FileReports reports, int line)
    {
        var written = headers[index];
        if (written.Length == 0)
            return new BoundField<TRow>(names.Unused($"column {index + 1}"), null, null, true);
        var name = names.Unused(written);
        if (Knows(written) || name != written)
        {
            reports.AboutFile(line, written, written, new CellFault(Rule.RepeatedColumn,
                $"An earlier column is read under this header; this one is kept as '{name}' and not read.", "each column once"));
        }

        return new BoundField<TRow>(name, null, null, false);
    }

    private void RequireColumns(IReadOnlyList<string> headers, HashSet<Column<TRow>> taken, int line)
    {
        var missing = _columns.Where(column => column.Required && !taken.Contains(column)).Select(column => column.Name).ToList();
        if (missing.Count == 0)
            return;
        const int MostShown = 40;
        var shown = string.Join(", ", headers.Take(MostShown).Select(header => header.Length > 40 ? header[..40] + "…" : header));
        throw new LogReadException(
            $"{_file} has no column {string.Join(" and no column ", missing)}, without which no row can be read. Its header, on line {line}, holds: "
            + $"{shown}{(headers.Count > MostShown ? ", …" : "")}. A header row with {string.Join(", ", _columns.Where(c => c.Required).Select(c => c.Name))}, "
            + "parted by commas, semicolons or tabs, would be right.");
    }

    /// <summary>The names given to a file's columns, each once.</summary>
    private sealed class HeaderNames
    {
        private readonly Dictionary<string, int> _uses = new(StringComparer.Ordinal);

        /// <summary>The name itself the first time; with the number of its use after that.</summary>
        public string Unused(string name)
        {
            var unused = name;
            while (!_uses.TryAdd(unused, 1))
                unused = FormattableString.Invariant($"{name} ({++_uses[name]})");
            return unused;
        }
    }
}
