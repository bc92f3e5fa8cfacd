namespace TastingKit.Reading;

/// <summary>The names of the rules that a report can give. They are part of what users sort and confirm by, so they don't change.</summary>
internal static class Rule
{
    // Of a file.
    public const string Encoding = "encoding";
    public const string HeaderReadAs = "header-read-as";
    public const string RepeatedColumn = "repeated-column";
    public const string NamelessColumn = "nameless-column";
    public const string UnknownColumn = "unknown-column";
    public const string MissingFile = "missing-file";
    public const string FileNotRead = "file-not-read";
    public const string WriteBrokenOff = "write-broken-off";
    public const string DerivedId = "derived-id";
    public const string BareTemperature = "bare-temperature";
    public const string UnusedScale = "unused-scale";

    // Of a row as a whole.
    public const string UnclosedQuote = "unclosed-quote";
    public const string TextAfterQuote = "text-after-quote";
    public const string StrayQuote = "stray-quote";
    public const string ExtraCells = "extra-cells";
    public const string MissingCells = "missing-cells";
    public const string CutOff = "cut-off";
    public const string RepeatedHeader = "repeated-header";
    public const string DuplicateId = "duplicate-id";
    public const string RepeatedRow = "repeated-row";
    public const string NeverFilledIn = "never-filled-in";
    public const string TestEntry = "test-entry";

    // Of a cell.
    public const string RequiredMissing = "required-missing";
    public const string UnknownBag = "unknown-bag";
    public const string WordForMissing = "word-for-missing";
    public const string FillerText = "filler-text";
    public const string LostLetter = "lost-letter";
    public const string SpellingVaries = "spelling-varies";
    public const string SpreadsheetError = "spreadsheet-error";
    public const string SpreadsheetDate = "spreadsheet-date";
    public const string FormulaMark = "formula-mark";
    public const string ControlCharacter = "control-character";
    public const string NotANumber = "not-a-number";
    public const string AmbiguousNumber = "ambiguous-number";
    public const string NumberOutOfRange = "number-out-of-range";
    public const string TemperatureOverBoiling = "temperature-over-boiling";
    public const string UnknownUnit = "unknown-unit";
    public const string QuantityReadAs = "quantity-read-as";
    public const string RatioNotRead = "ratio-not-read";
    public const string UnknownWord = "unknown-word";
    public const string DateNotIso = "date-not-iso";
    public const string DateImpossible = "date-impossible";
    public const string DateReadAs = "date-read-as";
    public const string TimeInUtc = "time-in-utc";
    public const string DurationNotRead = "duration-not-read";
    public const string SpreadsheetTime = "spreadsheet-time";
    public const string ScoreOffScale = "score-off-scale";
    public const string ScoreBetweenSteps = "score-between-steps";
    public const string ScaleNotRead = "scale-not-read";

    // Of cells that contradict one another.
    public const string CoffeeContradicts = "coffee-contradicts";
    public const string BagContradicts = "bag-contradicts";
    public const string BagEdited = "bag-edited";
    public const string SameCoffee = "same-coffee";
    public const string BagWithoutCups = "bag-without-cups";
    public const string TastedBeforeRoast = "tasted-before-roast";
    public const string TastedBeforeOpened = "tasted-before-opened";
    public const string OpenedBeforeRoast = "opened-before-roast";
    public const string ThawedBeforeFrozen = "thawed-before-frozen";
    public const string TastedWhileFrozen = "tasted-while-frozen";
    public const string FrozenAfterTasting = "frozen-after-tasting";
    public const string FrozenBeforeRoast = "frozen-before-roast";
    public const string RestOverAYear = "rest-over-a-year";
    public const string RatioUnusual = "ratio-unusual";
    public const string RatioContradicts = "ratio-contradicts";
    public const string CurrencyContradicts = "currency-contradicts";
    public const string ExtractionUnusual = "extraction-unusual";
    public const string DateOutOfSequence = "date-out-of-sequence";
    public const string MoreBrewedThanHeld = "more-brewed-than-held";
    public const string NearDuplicate = "near-duplicate";
    public const string NoughtForNone = "nought-for-none";
    public const string PriceOfNought = "price-of-nought";
    public const string SumContradicts = "sum-contradicts";
    public const string CorrectOverTrials = "correct-over-trials";

    // Of a column as a whole.
    public const string OtherScale = "other-scale";
    public const string HardlyInforms = "hardly-informs";
    public const string NoScore = "no-score";
    public const string SparseLevel = "sparse-level";
    public const string NestedLevel = "nested-level";
    public const string SeveralInOne = "several-in-one";

    // Of words.
    public const string WordReadAs = "word-read-as";
    public const string NearKnownWord = "near-known-word";

    // Of what the user confirmed, and of several folders.
    public const string AcceptedNotFound = "accepted-not-found";
    public const string AcceptedRefused = "accepted-refused";
    public const string IdReused = "id-reused";
    public const string ScaleAligned = "scale-aligned";
    public const string ScaleKindsDiffer = "scale-kinds-differ";
}
