using System.Text;

namespace TastingKit.Tests.Log.Reading;

public sealed class EncodingTests
{
    private const string Bags = "bag_id,coffee,region\nB1,Café Ñandú,雲南\n";

    public static TheoryData<string> Unicode => ["utf-8", "utf-8 with mark", "utf-16 little-endian", "utf-16 big-endian"];

    [Theory]
    [MemberData(nameof(Unicode))]
    public void Unicode_is_read_whatever_its_form(string form)
    {
        byte[] bytes = form switch
        {
            "utf-8" => Encoding.UTF8.GetBytes(Bags),
            "utf-8 with mark" => [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Bags)],
            "utf-16 little-endian" => [.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes(Bags)],
            _ => [.. Encoding.BigEndianUnicode.Preamble, .. Encoding.BigEndianUnicode.GetBytes(Bags)],
        };

        var log = LogInMemory.Read(("bags.csv", bytes));

        Assert.Equal(("Café Ñandú", "雲南"), (log.Bags[0].Coffee.Name, log.Bags[0].Coffee.Region));
        Assert.DoesNotContain(log.Problems, problem => problem.File == "bags.csv");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Utf_16_without_its_mark_is_read_and_told(bool bigEndian)
    {
        var log = LogInMemory.Read(("bags.csv", (bigEndian ? Encoding.BigEndianUnicode : Encoding.Unicode).GetBytes(Bags)));

        Assert.Equal(("Café Ñandú", "雲南"), (log.Bags[0].Coffee.Name, log.Bags[0].Coffee.Region));
        log.AssertReport("encoding", Severity.Information, "bags.csv", 1, "", "a nought in every other byte");
    }

    [Fact]
    public void Windows_1252_is_read_and_the_first_byte_s_place_told()
    {
        byte[] bytes = [.. "bag_id,coffee\nB1,plain\nB2,Caf"u8, 0xE9, .. " "u8, 0x80, .. "\nB3,"u8, 0xD1, .. "and"u8, 0xFA, .. "\n"u8];

        var log = LogInMemory.Read(("bags.csv", bytes));

        Assert.Equal(["plain", "Café €", "Ñandú"], log.Bags.Select(bag => bag.Coffee.Name));
        log.AssertReport("encoding", Severity.Information, "bags.csv", 3, "", "byte 0xE9 at offset 29, the first of 4");
    }

    [Fact]
    public void One_pasted_byte_does_not_spoil_the_other_scripts()
    {
        byte[] bytes = [.. "bag_id,coffee\nB1,"u8, .. Encoding.UTF8.GetBytes("雲南 Café"), .. "\nB2,Caf"u8, 0xE9, .. "\n"u8];

        var log = LogInMemory.Read(("bags.csv", bytes));

        Assert.Equal(["雲南 Café", "Café"], log.Bags.Select(bag => bag.Coffee.Name));
        Assert.Equal(3, log.Only("encoding").Line);
    }

    [Fact]
    public void A_windows_1252_header_is_read()
    {
        byte[] bytes = [.. "bag_id,h"u8, 0xF6, .. "he\nB1,1700\n"u8];

        Assert.Equal("1700", LogInMemory.Read(("bags.csv", bytes)).Bags[0].OtherColumns["höhe"]);
    }

    [Theory]
    [InlineData("Cote d?Ivoire", true)]
    [InlineData("Cura\uFFFDao", true)]
    [InlineData("Peru?", false)]
    [InlineData("?", false)]
    public void A_letter_lost_earlier_is_told(string country, bool lost)
    {
        var log = LogInMemory.ReadBags($"bag_id,country\nB0,Peru\nB1,{country}\n");

        if (lost)
            log.AssertReport("lost-letter", Severity.Doubtful, "bags.csv", 3, "country", country);
        else
            Assert.DoesNotContain(log.Problems, problem => problem.Rule == "lost-letter");
    }

    [Fact]
    public void Control_characters_are_taken_out_and_told()
    {
        var log = LogInMemory.ReadBags("bag_id,coffee\nB1,Aponte\u0000 Ridge\u0007\n");

        Assert.Equal("Aponte Ridge", log.Bags[0].Coffee.Name);
        log.AssertReport("control-character", Severity.Doubtful, "bags.csv", 2, "coffee", "Aponte\u0000 Ridge\u0007");
    }
}
