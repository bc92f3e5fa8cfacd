using TastingKit.Reading;

namespace TastingKit;

/// <summary>The catalogue of rules. A test holds it against the names in use and against <c>rules.md</c> beside it.</summary>
internal static class LogRules
{
    /// <summary>Every rule, in the order of the documentation.</summary>
    public static IReadOnlyList<LogRule> All { get; } = Array.AsReadOnly<LogRule>(
    [
        // Of a file.
        Information(Rule.Encoding, "The file is not UTF-8; bytes that are not were read as Windows-1252.", "Save it as UTF-8."),
        Information(Rule.HeaderReadAs, "A header was read as the kit's own word for the column.", "Nothing, if it is meant so; else rename it, or state it in columns.csv."),
        Information(Rule.RepeatedColumn, "Two headers mean one column; the first is read, the other kept under its own name.", "Keep each column once."),
        Information(Rule.NamelessColumn, "A column with cells has no header; they are kept.", "Give it a header."),
        Information(Rule.UnknownColumn, "The column is none of this file's and is not read.", "Rename it, or take it out."),
        Information(Rule.MissingFile, "The log has no cups.", "Add tastings.csv."),
        Information(Rule.FileNotRead, "The file is none of a log's.", "Move it elsewhere."),
        Information(Rule.WriteBrokenOff, "A write into the folder was ended before it had renamed every file; those not renamed yet were read where they lie.", "Nothing; the next write puts them in their places."),
        Information(Rule.DerivedId, "Rows without an identifier are named for their line.", "Give each cup a tasting_id, which stays when rows are sorted."),
        Information(Rule.BareTemperature, "Temperatures without a unit are read by the whole column, or left missing where it does not decide.", "Write 94C or 201F."),
        Information(Rule.UnusedScale, "A scale is stated of a column that is not there.", "Correct its name."),

        // Of a row as a whole.
        Rejected(Rule.UnclosedQuote, "A quote is opened and not closed.", "Close it; double the quotes inside a cell."),
        Doubtful(Rule.TextAfterQuote, "Text follows a closing quote; it was read as part of the cell.", "Double the quotes inside a cell."),
        Information(Rule.StrayQuote, "A quote stands inside a cell that does not begin with one; it is text.", "Nothing, if it reads right."),
        Rejected(Rule.ExtraCells, "There are more cells than headers.", "Put a cell that holds the delimiter in quotes."),
        Doubtful(Rule.MissingCells, "There are fewer cells than headers; the last are missing.", "Write every cell of the row, empty ones too."),
        Rejected(Rule.CutOff, "A row ends before a cell that it can't do without.", "Write the row to its end; the report names the cells."),
        Rejected(Rule.RepeatedHeader, "The header stands among the rows again.", "Take it out."),
        Rejected(Rule.DuplicateId, "An identifier stands twice.", "Give each row its own."),
        Information(Rule.RepeatedRow, "A row says the same as an earlier one, but for its identifier.", "Take it out if it is a copy; a cup tasted again may well say the same."),
        Rejected(Rule.NeverFilledIn, "Everything scored is a nought, as in a form saved empty. Of a scale on which nought is an answer it is a doubt.", "Leave cells empty where nothing was scored."),
        Doubtful(Rule.TestEntry, "The row is a try-out of the form; it stays, and out of analyses of scores.", "Take it out if it is none of a real coffee."),

        // Of a cell.
        Rejected(Rule.RequiredMissing, "A cell is empty that a row can't do without.", "Fill it in."),
        Rejected(Rule.UnknownBag, "No bag has this identifier.", "Write it as bags.csv does, or add the bag."),
        Information(Rule.WordForMissing, "A word stands for a missing value.", "Leave the cell empty."),
        Doubtful(Rule.FillerText, "The text fills the cell and says nothing; it was left missing.", "Write the value, or leave the cell empty."),
        Acceptable(Rule.LostLetter, "A letter was lost before the file was written.", "Write the word again."),
        Information(Rule.SpellingVaries, "One name stands in several spellings, which are several names to every analysis.", "Keep one; or state in vocabulary.csv what the others mean."),
        Doubtful(Rule.SpreadsheetError, "A formula of a spreadsheet failed, and left its error in the cell; it was left missing.", "Write the value, or leave the cell empty."),
        Acceptable(Rule.SpreadsheetDate, "A spreadsheet may have made a date of it.", "Write it again in a cell formatted as text."),
        Information(Rule.FormulaMark, "An apostrophe stands in front of a text that a spreadsheet would run as a formula; it was taken off.", "Nothing, if it is meant so."),
        Doubtful(Rule.ControlCharacter, "Characters that can't be shown were taken out.", "Write the text again."),
        Doubtful(Rule.NotANumber, "The cell holds no number.", "Write a number, or leave the cell empty."),
        Doubtful(Rule.AmbiguousNumber, "The number can be read in two ways.", "Write it without separators of thousands."),
        Doubtful(Rule.NumberOutOfRange, "The number can't be one of this column; it was left missing.", "Correct it."),
        Doubtful(Rule.TemperatureOverBoiling, "Water is not liquid at this temperature; it was left missing.", "Correct the number or its unit."),
        Information(Rule.QuantityReadAs, "A quantity in another unit or form than the kit's own was turned into it.", "Nothing, if it is meant so."),
        Doubtful(Rule.RatioNotRead, "The ratio can't be read.", "Write 16, 1:16 or 62.5 g/L."),
        Doubtful(Rule.UnknownUnit, "The unit is none of this column's.", "Write a unit that the report lists."),
        Doubtful(Rule.UnknownWord, "The column takes a closed list of words, and this is none.", "Write one that the report lists."),
        Doubtful(Rule.DateNotIso, "The day is not written so that it can be read without guessing.", "Write year-month-day."),
        Information(Rule.DateReadAs, "Dates that are not ISO were read: the year first, the month as a word, or day and month in the order that the whole column shows.", "Nothing, if they are read right; year-month-day leaves no doubt."),
        Doubtful(Rule.DateImpossible, "No calendar has this day.", "Correct it."),
        Information(Rule.TimeInUtc, "The time is of UTC and was taken for the taster's.", "Write the clock where the taster was."),
        Doubtful(Rule.DurationNotRead, "The brew time can't be read.", "Write 3:15, 3m15s or 195."),
        Information(Rule.SpreadsheetTime, "A spreadsheet wrote the time with hours; it was read as minutes and seconds.", "Nothing, if it is meant so."),
        Doubtful(Rule.ScoreOffScale, "The score lies off its scale; it was left missing.", "Correct it, or state the scale in scales.csv."),
        Acceptable(Rule.ScoreBetweenSteps, "The score lies between two steps of its scale.", "Correct it, or state the step in scales.csv."),
        Rejected(Rule.ScaleNotRead, "A scale that can't be one.", "Write a lower and a higher number, and a step that fits between."),

        // Of what contradicts, within a row or between rows.
        Acceptable(Rule.CoffeeContradicts, "Two rows say different things of one coffee; the first holds.", "Say the same in both, or give each its own coffee_id."),
        Acceptable(Rule.BagContradicts, "Two rows say different things of one bag; the first holds.", "Say the same in every row."),
        Information(Rule.BagEdited, "A bag has a second row, which adds to the first.", "Keep one row a bag."),
        Acceptable(Rule.SameCoffee, "Two bags look like one coffee and share no coffee_id, so that they count as two coffees.", "Give both one coffee_id, or each its own."),
        Information(Rule.BagWithoutCups, "No cup of the bag is logged.", "Nothing, if none was brewed."),
        Doubtful(Rule.TastedBeforeRoast, "The cup was tasted before the roast; it has no days of rest.", "Correct one of the two dates."),
        Acceptable(Rule.TastedBeforeOpened, "The cup was tasted before its bag was opened.", "Correct one of the two dates."),
        Doubtful(Rule.OpenedBeforeRoast, "The bag was opened before the roast; the day of opening was left missing.", "Correct one of the two dates."),
        Doubtful(Rule.ThawedBeforeFrozen, "Thawed before frozen, or without a day of freezing.", "Correct the two dates."),
        Doubtful(Rule.TastedWhileFrozen, "The cup was tasted while its dose was frozen; both days were left missing.", "Correct the dates."),
        Doubtful(Rule.FrozenAfterTasting, "The dose was frozen after it was tasted; both days were left missing.", "Correct the dates."),
        Doubtful(Rule.FrozenBeforeRoast, "The dose was frozen before its bag was roasted; it has no sound days of rest.", "Correct one of the two dates."),
        Acceptable(Rule.RestOverAYear, "Over a year of rest, days frozen left out.", "Correct the dates, or log the days frozen."),
        Acceptable(Rule.DateOutOfSequence, "A day half a year or more from the rows above and below it, in a file kept in order.", "Look at the year."),
        Acceptable(Rule.RatioUnusual, "Water and dose make a ratio outside 1:5 to 1:30.", "Correct dose or water."),
        Acceptable(Rule.RatioContradicts, "The ratio stated is not the one that water and dose make, which holds.", "Correct one of the three."),
        Acceptable(Rule.CurrencyContradicts, "The price names another currency than the column currency, which holds.", "Say the same in both."),
        Acceptable(Rule.ExtractionUnusual, "Yield, TDS and dose make an extraction outside 10 to 30 %.", "Correct one of the three."),
        Acceptable(Rule.MoreBrewedThanHeld, "The doses of all cups of a bag, added up, are more than it held.", "Correct a dose, the net weight, or a cup's bag_id."),
        Acceptable(Rule.NearDuplicate, "A cup of the same bag, brewer and taster in the same minute as another.", "Take out the copy, or correct the time; position tells cups served together apart."),
        Acceptable(Rule.NoughtForNone, "A nought far below everything else in its column, which may mean that nothing was scored.", "Leave the cell empty where nothing was scored."),
        Acceptable(Rule.PriceOfNought, "A bag that was bought cost nothing.", "Write the price, leave the cell empty, or say how the bag was obtained."),
        Acceptable(Rule.SumContradicts, "The attributes don't add up to the score, in a log where they do in nine cups of ten.", "Correct the score or the attribute."),
        Rejected(Rule.CorrectOverTrials, "More trials were answered correctly than made.", "Correct one of the two numbers."),

        // Of a column as a whole.
        Acceptable(Rule.OtherScale, "A column of scores looks like one of another scale than said.", "State its scale in scales.csv."),
        Information(Rule.HardlyInforms, "A column of scores holds one value in nine cups of ten, and can hardly tell cups apart.", "Nothing, if it is so; it can't be asked much."),
        Information(Rule.NoScore, "Cups without a score, which are kept and left out of analyses of scores.", "Nothing, if none was given."),
        Information(Rule.SparseLevel, "A word that sorts cups has under five of them: too few to say much about.", "Look whether two words mean one thing; state it in vocabulary.csv."),
        Information(Rule.NestedLevel, "One word that sorts cups begins with another, as a country and a part of it.", "State in vocabulary.csv what they mean, if they are one."),
        Information(Rule.SeveralInOne, "A cell seems to name several things; it is one name to every analysis.", "Nothing, if it is one."),

        // Of words.
        Information(Rule.WordReadAs, "A word was read as the vocabulary's own word; what is written is kept beside it.", "Nothing, if it is meant so; else state in vocabulary.csv what it means."),
        Information(Rule.NearKnownWord, "A word that is not known is nearly one that is; it was kept as it stands.", "Correct it, or state in vocabulary.csv what it means."),

        // Of what the user confirmed, and of several folders.
        Doubtful(Rule.AcceptedNotFound, "A line of accepted.csv confirms nothing that is found now.", "Take the line out."),
        Rejected(Rule.AcceptedRefused, "A line of accepted.csv names a rule that is none, or whose findings can't be confirmed.", "Mend the row itself."),
        Information(Rule.IdReused, "An identifier stands in two folders for different things; the later was given the folder's name.", "Give each its own."),
        Information(Rule.ScaleAligned, "An attribute has another scale in this folder; its values were moved onto that of the last folder, linearly.", "Nothing, if the two scales have the same ends in the taster's mind."),
        Doubtful(Rule.ScaleKindsDiffer, "An attribute is of one kind of scale in this folder and of another in the last; its values were kept under a name of their own.", "State one kind in every scales.csv, if they are one thing."),
    ]);

    /// <summary>The rules by name.</summary>
    public static IReadOnlyDictionary<string, LogRule> ByName { get; } = All.ToDictionary(rule => rule.Name, StringComparer.Ordinal);

    private static LogRule Rejected(string name, string meaning, string fix) => new(name, Severity.Rejected, meaning, fix);

    private static LogRule Doubtful(string name, string meaning, string fix) => new(name, Severity.Doubtful, meaning, fix);

    private static LogRule Acceptable(string name, string meaning, string fix) => new(name, Severity.Doubtful, meaning, fix, CanBeAccepted: true);

    private static LogRule Information(string name, string meaning, string fix) => new(name, Severity.Information, meaning, fix);
}
