namespace TastingKit.Reading;

/// <summary>
/// Puts the words of a log into the vocabulary's form on the way in, each distinct word looked up once, and tells at the end which were read as
/// another word and which are nearly one.
/// </summary>
internal sealed class KnownWords(Vocabulary vocabulary)
{
    /// <summary>How many unknown words of a column are searched for near misses. A column of free text has no end of them.</summary>
    private const int MostSearched = 1000;

    /// <summary>How many words of a column are held against one another.</summary>
    private const int MostCompared = 200;

    /// <summary>How much oftener a word must be met than another that is taken for a slip of it.</summary>
    private const int Oftener = 3;

    private readonly Dictionary<(FileReports Reports, string Column), OfColumn> _columns = [];

    /// <summary>The vocabulary.</summary>
    public Vocabulary Vocabulary { get; } = vocabulary;

    /// <summary>A column whose words are known words, to be asked for once.</summary>
    public OfColumn Column(FileReports reports, string column, VocabularyKind kind)
    {
        if (!_columns.TryGetValue((reports, column), out var words))
            _columns.Add((reports, column), words = new OfColumn(Vocabulary, kind, column, reports));
        return words;
    }

    /// <summary>Files what there is to say of the words met.</summary>
    public void Report()
    {
        foreach (var column in _columns.Values)
            column.Report();
    }

    /// <summary>The words of one column.</summary>
    internal sealed class OfColumn(Vocabulary vocabulary, VocabularyKind kind, string column, FileReports reports)
    {
        private readonly Dictionary<string, Word> _words = new(StringComparer.Ordinal);

        /// <summary>The form that the vocabulary has; the word itself, the same object, where there is no other.</summary>
        public string Canonical(string written, int line)
        {
            var word = Met(written, line);
            word.Uses++;
            return word.Canonical;
        }

        /// <summary>What is known of a word; it is not counted as used.</summary>
        public Word Met(string written, int line)
        {
            if (!_words.TryGetValue(written, out var word))
            {
                var canonical = vocabulary.Canonical(kind, written);
                word = new Word(canonical == written ? written : canonical, line, vocabulary.Knows(kind, written));
                _words.Add(written, word);
            }

            return word;
        }

        public void Report()
        {
            var header = reports.HeaderOf(column);
            foreach (var (written, word) in _words)
            {
                if (!written.Equals(word.Canonical, StringComparison.OrdinalIgnoreCase))
                {
                    reports.Add(Severity.Information, word.Line, null, header, written, new CellFault(Rule.WordReadAs,
                        $"It was read as '{word.Canonical}', here and wherever it stands in the column; what is written is kept beside it.", $"'{word.Canonical}', or a line in vocabulary.csv that says what it means"));
                }
            }

            // A known word in another spelling is one name after all.
            if (reports.MayHave(Rule.SpellingVaries))
                reports.Withdraw(problem => problem.Rule == Rule.SpellingVaries && problem.Column == header
                && problem.Found.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).All(part => vocabulary.Knows(kind, part)));
            ReportNear();
        }

        private void ReportNear()
        {
            var unknown = _words.Where(pair => !pair.Value.Known).Take(MostSearched).ToList();
            foreach (var (written, word) in unknown)
            {
                var near = vocabulary.NearestTo(kind, written) ?? (unknown.Count <= MostCompared ? NearOf(written, word, unknown) : null);
                if (near is null)
                    continue;
                reports.Add(Severity.Information, word.Line, null, reports.HeaderOf(column), written, new CellFault(Rule.NearKnownWord,
                    $"It is nearly '{near}', and was kept as it stands.", FormattableString.Invariant($"'{near}', if it is meant; or a line in vocabulary.csv: {kind.ToString().ToLowerInvariant()},{written},{near}")));
            }
        }

        /// <summary>A word of the column that is much oftener met, and nearly this one.</summary>
        private static string? NearOf(string written, Word word, List<KeyValuePair<string, Word>> unknown)
        {
            const int Shortest = 5;
            var folded = Words.Folded(written);
            // Names that end in a number are meant to differ in it.
            if (folded.Length < Shortest || char.IsDigit(folded[^1]))
                return null;
            return unknown.Where(other => other.Value.Uses >= Oftener * word.Uses && Vocabulary.AreNear(folded, Words.Folded(other.Key)))
                .OrderByDescending(other => other.Value.Uses).ThenBy(other => other.Key, StringComparer.Ordinal).Select(other => other.Key).FirstOrDefault();
        }

        /// <summary>A word of the column.</summary>
        internal sealed class Word(string canonical, int line, bool known)
        {
            /// <summary>Its form in the vocabulary, or itself.</summary>
            public string Canonical { get; } = canonical;

            /// <summary>The line on which it was first met.</summary>
            public int Line { get; } = line;

            /// <summary>Whether the vocabulary has it.</summary>
            public bool Known { get; } = known;

            /// <summary>How often it was met.</summary>
            public int Uses { get; set; }
        }
    }
}
