using System.Globalization;
using System.Text;

namespace TastingKit.Tests.Hostility;

/// <summary>A text that means something to whatever may come to show it.</summary>
/// <param name="Name">What it tries.</param>
/// <param name="Value">The text.</param>
internal sealed record HostileText(string Name, string Value)
{
    /// <summary>
    /// A text as a reader recognises it: without what has no ink (white space, control and formatting characters, halves of
    /// surrogate pairs, the replacement character that may stand for these), and of a pile of marks on one letter only the first few.
    /// Whatever shows a text may change all that, and nothing else.
    /// </summary>
    internal static string Ink(string text)
    {
        var ink = new StringBuilder(text.Length);
        var marks = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            switch (Rune.GetUnicodeCategory(rune))
            {
                case UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate or UnicodeCategory.OtherNotAssigned:
                case UnicodeCategory.SpaceSeparator or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator:
                    continue;
                case UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.SpacingCombiningMark when ++marks > MarksKept:
                    continue;
                case UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.SpacingCombiningMark:
                    break;
                default:
                    marks = 0;
                    break;
            }

            if (rune != Rune.ReplacementChar)
                ink.Append(rune);
        }

        return ink.ToString();
    }

    /// <summary>Whether some shown text holds this one, or its beginning where it is too long to be shown whole.</summary>
    /// <param name="shown">The text shown.</param>
    /// <param name="value">The text that it should hold.</param>
    internal static bool IsSeenIn(string shown, string value)
    {
        var ink = Ink(value);
        return Ink(shown).Contains(ink.Length <= LongestWhole ? ink : ink[..LengthOfBeginning], StringComparison.Ordinal);
    }

    /// <summary>Whether some shown text holds the beginning of this one.</summary>
    /// <param name="shown">The text shown.</param>
    /// <param name="value">The text whose beginning it should hold.</param>
    internal static bool IsBegunIn(string shown, string value)
    {
        var ink = Ink(value);
        return Ink(shown).Contains(ink[..Math.Min(ink.Length, LengthOfBeginning)], StringComparison.Ordinal);
    }

    /// <summary>What a text holds that whoever shows it must not pass on: it would be obeyed rather than seen.</summary>
    internal static bool IsObeyed(Rune rune) =>
        rune.Value is not ('\t' or '\n') && (Rune.IsControl(rune) || rune.Value is 0x2028 or 0x2029 or 0x061C or 0x200E or 0x200F or (>= 0x202A and <= 0x202E));

    public override string ToString() => Name;

    private const int MarksKept = 3;
    private const int LongestWhole = 200;
    private const int LengthOfBeginning = 24;
}
