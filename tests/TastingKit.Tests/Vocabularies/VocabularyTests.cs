using TastingKit.Tests.Log.Reading;

namespace TastingKit.Tests.Vocabularies;

public sealed class VocabularyTests
{
    [Theory]
    [InlineData(VocabularyKind.Process, "Fully Washed", "washed")]
    [InlineData(VocabularyKind.Process, "Washed / Wet", "washed")]
    [InlineData(VocabularyKind.Process, "gewaschen", "washed")]
    [InlineData(VocabularyKind.Country, "Äthiopien", "Ethiopia")]
    [InlineData(VocabularyKind.Country, "Etiopia", "Ethiopia")]
    [InlineData(VocabularyKind.Country, "BRA", "Brazil")]
    [InlineData(VocabularyKind.Country, "Tanzania, United Republic Of", "Tanzania")]
    [InlineData(VocabularyKind.Country, "guinea", "Guinea")]
    [InlineData(VocabularyKind.Country, "Papua-New-Guinea", "Papua New Guinea")]
    [InlineData(VocabularyKind.Brewer, "flat bed", "flat-bed dripper")]
    [InlineData(VocabularyKind.Variety, "Geisha", "Gesha")]
    [InlineData(VocabularyKind.Variety, "SL-28", "SL28")]
    [InlineData(VocabularyKind.Note, "Apricots", "apricot")]
    [InlineData(VocabularyKind.Note, "blackberries", "blackberry")]
    [InlineData(VocabularyKind.Note, "lemon zest", "lemon peel")]
    [InlineData(VocabularyKind.Note, "redcurrants", "redcurrant")]
    public void A_word_has_one_form(VocabularyKind kind, string written, string expected)
    {
        Assert.Equal(expected, Vocabulary.Shipped.Canonical(kind, written));
        Assert.True(Vocabulary.Shipped.Knows(kind, written));
    }

    [Theory]
    [InlineData(VocabularyKind.Process, "anaerobic natural")]
    [InlineData(VocabularyKind.Country, "United States (Hawaii)")]
    [InlineData(VocabularyKind.Country, "Ethiopa")]
    [InlineData(VocabularyKind.Country, "Congo")]
    [InlineData(VocabularyKind.Roaster, "Larkspur Lane")]
    [InlineData(VocabularyKind.Note, "")]
    [InlineData(VocabularyKind.Note, "雨")]
    public void A_word_that_is_not_known_stays(VocabularyKind kind, string written)
    {
        Assert.Same(written, Vocabulary.Shipped.Canonical(kind, written));
        Assert.False(Vocabulary.Shipped.Knows(kind, written));
    }

    [Theory]
    [InlineData(VocabularyKind.Country, "Ethiopa", "Ethiopia")]
    [InlineData(VocabularyKind.Country, "Etihopia", "Ethiopia")]
    [InlineData(VocabularyKind.Process, "wahsed", "washed")]
    [InlineData(VocabularyKind.Country, "Peruu", "Peru")]
    [InlineData(VocabularyKind.Country, "Pe", null)]
    [InlineData(VocabularyKind.Country, "Ethiopia", null)]
    [InlineData(VocabularyKind.Process, "carbonic maceration", null)]
    [InlineData(VocabularyKind.Roaster, "Larkspur", null)]
    public void A_near_miss_is_suggested(VocabularyKind kind, string written, string? expected) =>
        Assert.Equal(expected, Vocabulary.Shipped.NearestTo(kind, written));

    [Fact]
    public void A_note_has_a_family()
    {
        Assert.Equal("stone fruit", Vocabulary.Shipped.FamilyOf("Apricots"));
        Assert.Null(Vocabulary.Shipped.FamilyOf("moonlight"));
    }

    [Fact]
    public void Every_word_of_the_simulator_is_known_as_it_stands()
    {
        var year = SimulatedYear.Create(new SimulationSettings(), seed: 3).Log;
        Assert.All(year.Tastings.SelectMany(cup => cup.Notes).Distinct(), note => Assert.Equal(note, Known(VocabularyKind.Note, note)));
        Assert.All(year.Tastings.Select(cup => cup.Brewer).OfType<string>().Distinct(), brewer => Assert.Equal(brewer, Known(VocabularyKind.Brewer, brewer)));
        Assert.All(year.Coffees.Select(coffee => coffee.Process!).Distinct(), process => Assert.Equal(process, Known(VocabularyKind.Process, process)));
        Assert.All(year.Coffees.SelectMany(coffee => coffee.Countries).Distinct(), country => Assert.Equal(country, Known(VocabularyKind.Country, country)));

        static string? Known(VocabularyKind kind, string word) => Vocabulary.Shipped.Knows(kind, word) ? Vocabulary.Shipped.Canonical(kind, word) : null;
    }

    [Fact]
    public void A_form_of_the_users_own_goes_before_the_kits_spelling_of_it_and_has_no_other()
    {
        var own = Vocabulary.Shipped.With([new(VocabularyKind.Process, "wash", "Washed"), new(VocabularyKind.Note, "zing", "zest"), new(VocabularyKind.Note, "Zest", "lemon zest")]);

        Assert.All(["wash", "washed", "Washed"], written => Assert.Equal("Washed", own.Canonical(VocabularyKind.Process, written)));
        Assert.All(["zing", "zest", "lemon zest"], written => Assert.Equal("lemon zest", own.Canonical(VocabularyKind.Note, written)));
    }

    [Fact]
    public void The_user_s_words_come_before_the_kit_s()
    {
        var own = Vocabulary.Shipped.With([new(VocabularyKind.Process, "Wet", "Wet"), new(VocabularyKind.Roaster, "LL", "Larkspur Lane"), new(VocabularyKind.Roaster, "L.L.", "other")]);
        Assert.Equal("Wet", own.Canonical(VocabularyKind.Process, "wet"));
        Assert.Equal("washed", own.Canonical(VocabularyKind.Process, "wet process"));
        Assert.Equal("Larkspur Lane", own.Canonical(VocabularyKind.Roaster, "ll"));
        Assert.Equal(["Wet", "LL"], own.Own.Select(entry => entry.Written));
    }

    [Fact]
    public void A_log_is_read_in_known_words_and_keeps_what_is_written()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id,origin,process,roaster\nB1,Äthiopien; PE,Fully washed,LL\nB2,Ethiopia,washed,Larkspur Lane\nB3,Ethiopia,WASHED,LL\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,brewer,notes,guess_process\nT1,B1,2025-03-14,flat bed,\"Apricots; moonlight\",wet\nT2,B1,2025-03-15,flat bed,apricot,\n"),
            ("vocabulary.csv", "kind,written,means\nroaster,LL,Larkspur Lane\n"));

        var coffee = log.Bags[0].Coffee;
        Assert.Equal(["Ethiopia", "Peru"], coffee.Countries);
        Assert.Equal(("washed", "Larkspur Lane"), (coffee.Process, coffee.Roaster));
        Assert.Equal(("Äthiopien; PE", "Fully washed", "LL"), (coffee.AsWritten["country"], coffee.AsWritten["process"], coffee.AsWritten["roaster"]));
        Assert.Empty(log.Bags[1].Coffee.AsWritten);
        Assert.Equal(("flat-bed dripper", "washed"), (log.Tastings[0].Brewer, log.Tastings[0].GuessedProcess));
        Assert.Equal(["apricot", "moonlight"], log.Tastings[0].Notes);
        Assert.Equal("Apricots; moonlight", log.Tastings[0].AsWritten["notes"]);
        // Once a column and word, by the column's own header; a difference in case alone is none.
        Assert.Equal(
            [("origin", "Äthiopien"), ("origin", "PE"), ("process", "Fully washed"), ("roaster", "LL"), ("brewer", "flat bed"), ("guess_process", "wet"), ("notes", "Apricots")],
            log.Problems.Where(problem => problem.Rule == "word-read-as").Select(problem => (problem.Column, problem.Found)).OrderBy(found => found.Column is "brewer" or "guess_process" or "notes").ThenBy(found => found.Column, StringComparer.Ordinal).ThenByDescending(found => found.Found, StringComparer.Ordinal));
        Assert.DoesNotContain(log.Problems, problem => problem.Rule is "spelling-varies" or "near-known-word");
    }

    [Fact]
    public void A_near_miss_in_a_log_is_told_and_not_merged()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id,country,roaster\nB1,Ethiopa,Larkspur Lane\nB2,Peru,Larkspur Lane\nB3,Peru,Larkspur Lane\nB4,Peru,Larkspor Lane\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\n"));

        Assert.Equal(["Ethiopa"], log.Bags[0].Coffee.Countries);
        Assert.Equal("Larkspor Lane", log.Bags[3].Coffee.Roaster);
        Assert.Equal(
            [(2, "country", "Ethiopa"), (5, "roaster", "Larkspor Lane")],
            log.Problems.Where(problem => problem.Rule == "near-known-word").Select(problem => (problem.Line, problem.Column, problem.Found)));
    }

    [Fact]
    public void A_vocabulary_with_faults_is_judged_row_by_row()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id,process\nB1,wet\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\n"),
            ("vocabulary.csv", "kind,written,means\nprocess,wet,soaked\nprocess,Wet,other\ncolour,red,blue\nnote,,x\n"));
        Assert.Equal("soaked", log.Bags[0].Coffee.Process);
        Assert.Equal((4, 1, 0, 3), log.AccountOf("vocabulary.csv"));
        Assert.Single(log.Vocabulary.Own);
    }
}
