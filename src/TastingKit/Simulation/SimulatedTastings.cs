using System.Collections.ObjectModel;
using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Brews and scores the planned cups one after the other, since what is found changes what is brewed next.</summary>
internal sealed class SimulatedTastings
{
    private const double DoseGrams = 15;
    private const double DialInLoss = 0.5;
    private const double FailedLoss = 2.0;
    private const int MostNotes = 5;

    private static readonly string[] Grinds = ["20", "21", "22", "23", "24", "25", "26", "27", "28", "29", "30", "31", "32", "33"];

    private readonly SimulationSettings _settings;
    private readonly SimulatedCalendar _calendar;
    private readonly SimulatedShelf _shelf;
    private readonly RandomStream _random;
    private readonly BagState[] _states;
    private readonly double[] _lotQuality;
    private readonly double[][] _brewerEffects;
    private readonly double[] _shares;
    private readonly (int Day, double Effect)[] _changes;
    private readonly string[] _waters;
    private readonly Dictionary<int, (int Bag, int Brewer, bool House, double Grind)> _pairs = [];
    private readonly List<Tasting> _tastings;
    private Session _session = new("", -1, false, 0);

    public SimulatedTastings(SimulationSettings settings, SimulatedCalendar calendar, SimulatedShelf shelf, RandomStream random)
    {
        (_settings, _calendar, _shelf, _random) = (settings, calendar, shelf, random);
        _states = [.. shelf.Bags.Select(_ => new BagState(settings.Method.Brewers.Count))];
        _tastings = new List<Tasting>(settings.Cups);
        _lotQuality = [.. shelf.Truths.Select(coffee => coffee.LotQuality)];
        _brewerEffects = [.. shelf.Truths.Select((coffee, c) => settings.Method.Brewers
            .Select((brewer, b) => brewer.Effect + shelf.BrewerByProcess[b, shelf.ProcessOf[c]] + coffee.BrewerDeviations[brewer.Name]).ToArray())];
        _shares = [.. settings.Method.Brewers.Select(brewer => brewer.Share)];
        _changes = [.. settings.Schedule.Changes.Select(change => (change.ChangedOn.DayNumber - calendar.FirstDay.DayNumber, change.Effect))];
        _waters = WaterByDay();
    }

    /// <summary>Brews the plan.</summary>
    /// <param name="plan">The planned cups in the order of the year.</param>
    public IReadOnlyList<Tasting> Taste(IReadOnlyList<PlannedCup> plan)
    {
        foreach (var cup in plan)
        {
            _states[cup.Bag].Left++;
            _states[cup.Bag].Spare += IsSpare(cup) ? 1 : 0;
        }

        foreach (var cup in plan)
            Brew(cup);
        return _tastings;
    }

    private void Brew(PlannedCup cup)
    {
        _states[cup.Bag].Left--;
        _states[cup.Bag].Spare -= IsSpare(cup) ? 1 : 0;
        var index = cup.Bag;
        if (_states[index].UsedUp > 0 && IsSpare(cup))
        {
            _states[index].UsedUp--;
            return;
        }

        if (_session.Day != cup.Day || _session.Afternoon != cup.Afternoon)
            _session = NewSession(cup);
        var paired = cup.Pair >= 0 && _pairs.TryGetValue(cup.Pair, out var first) ? first : (Bag: -1, Brewer: 0, House: true, Grind: 0);
        if (paired.Bag >= 0)
            index = paired.Bag;
        else if (_states[index].Dropped && !IsKeptDose(cup) && !TryAnotherBag(cup, out index))
            return;

        var state = _states[index];
        var bag = _shelf.Bags[index];
        var random = _random.Split(0).Split((ulong)(index * 4096 + state.Cups));
        var choice = new CupChoice(random);
        var isDose = bag.IsControl || IsKeptDose(cup);
        var isFrozen = bag.IsControl || cup.Frozen;
        var rest = bag.IsControl ? 0 : cup.Day - bag.RoastDay;
        var brewer = paired.Bag >= 0 ? paired.Brewer : isDose ? 0 : ChooseBrewer(state, rest, choice);
        var house = paired.Bag >= 0 ? paired.House : isDose || choice.Recipe >= _settings.Method.RoasterRecipeShare;
        var grind = paired.Bag >= 0 ? paired.Grind : choice.Grind;
        if (cup.Pair >= 0)
            _pairs[cup.Pair] = (index, brewer, house, grind);

        var purpose = isFrozen ? Purpose.Control
            : cup.Pair >= 0 ? Purpose.Verdict
            : state.Cups == 0 && choice.Kind < _settings.Schedule.DialInShare ? Purpose.DialIn
            : state.Cups == 1 && choice.Kind < _settings.Schedule.CuppingShare ? Purpose.Cupping
            : Purpose.Verdict;
        var place = _tastings.Count;
        Pour(index, brewer, house, grind, purpose, IsBlind(cup) || isFrozen, choice, random);

        // A poor cup is brewed again while the bag still holds a later one.
        if (_settings.Habits.BrewAgainBelow is not { } poor || purpose != Purpose.Verdict || cup.Pair >= 0 || state.Spare <= state.UsedUp
            || _tastings[place] is not { Failed: false, Score: { } score } || score >= poor)
            return;
        if (choice.CalledFailed < _settings.Habits.PoorCupCalledFailed)
            _tastings[place] = _tastings[place] with { Failed = true };
        state.UsedUp++;
        var again = _random.Split(0).Split((ulong)(index * 4096 + state.Cups));
        var second = new CupChoice(again);
        Pour(index, brewer, house, second.Grind, purpose, false, second, again);
    }

    /// <summary>Pairs are numbered with the blind ones first.</summary>
    private bool IsBlind(PlannedCup cup) => cup.Coded || (cup.Pair >= 0 && cup.Pair < _settings.Schedule.BlindRepeats);

    /// <summary>Whether brewing again may use the cup up.</summary>
    private static bool IsSpare(PlannedCup cup) => cup.Pair < 0 && !cup.Frozen;

    /// <summary>Whether it is a dose frozen for the year's end, whatever becomes of its bag.</summary>
    private static bool IsKeptDose(PlannedCup cup) => cup.Pair < 0 && cup.Frozen;

    private void Pour(int index, int brewer, bool house, double grind, Purpose purpose, bool coded, CupChoice choice, RandomStream random)
    {
        var schedule = _settings.Schedule;
        var taster = _settings.Taster;
        var bag = _shelf.Bags[index];
        var state = _states[index];
        var coffee = _shelf.Truths[bag.Coffee];
        var roaster = _shelf.RoasterOf[bag.Coffee];
        var day = _session.Day;
        _session.Position++;
        state.Cups++;

        // A bag is opened, portioned and frozen on one day; the control bag before the year's first dose is thawed.
        var isFrozen = purpose == Purpose.Control;
        var frozenDays = isFrozen ? Math.Max(0, day - bag.OpenDay) : 0;
        var rest = day - bag.RoastDay - frozenDays;
        var brewed = purpose != Purpose.Cupping;
        var (celsius, ratio) = house ? SimulatedRecipe.House : _shelf.RoasterRecipes[roaster];
        var measured = brewed && choice.Measured < 0.25;
        var failed = !coded && choice.Failed < schedule.FailedShare;

        var quality = _lotQuality[bag.Coffee] + bag.Truth.BatchEffect + bag.Truth.BuyingTrendEffect;
        var departure = bag.Truth.RestEffect(rest) + _session.Effect
            + taster.BagDayStandardDeviation * BagDay(index, day)
            + taster.PositionEffect * (_session.Position - 1)
            + taster.DriftPerYear * (day - _calendar.MidYear) / _calendar.DayCount
            - schedule.FreezerLossPerYear * frozenDays / _calendar.DayCount
            + (isFrozen ? schedule.FreezingStep : 0)
            + taster.RepeatStandardDeviation * choice.RepeatError;
        if (brewed)
        {
            departure += _brewerEffects[bag.Coffee][brewer];
            if (!house)
                departure += _settings.Method.RoasterRecipeEffect + coffee.RoasterBrewingEffect + _shelf.RecipeByProcess[_shelf.ProcessOf[bag.Coffee]] + coffee.RoasterRecipeDeviation;
        }

        foreach (var (changedOn, effect) in _changes)
            departure += day >= changedOn ? effect : 0;
        departure += coded ? 0 : taster.LabelAdds(bag.Bag, _shelf.IsRenowned(roaster));
        departure -= failed ? FailedLoss : purpose == Purpose.DialIn ? DialInLoss : 0;
        departure -= choice.Spoiled < _settings.Habits.SpoiledShare ? _settings.Habits.SpoiledLoss : 0;
        departure += taster.CarryOver * _session.LastDeparture;
        if (taster.AnchoringOnLastScore > 0 && state.LastScore is { } last)
            departure += taster.AnchoringOnLastScore * (last - taster.Mean - quality - departure);
        _session.LastDeparture = quality + departure;

        double? score = null;
        if (choice.Unscored >= schedule.UnscoredShare && !(failed && choice.Recipe < 0.5))
        {
            score = taster.RecordScore(Math.Min(taster.Mean + quality + departure, _settings.Habits.Ceiling ?? double.PositiveInfinity), _calendar.FirstDay.AddDays(day));
            state.LastScore = score;
        }

        if (purpose == Purpose.Verdict && !failed && score is { } given)
            state.Count(given, brewer, _settings.Habits.DropBagsBelow);

        var tasting = new Tasting
        {
            Id = SimulatedShelf.Invariant("t", _tastings.Count + 1, 4),
            Bag = bag.Bag,
            TastedAt = _session.Start.AddMinutes(13 * (_session.Position - 1)),
            HasTimeOfDay = true,
            Session = _session.Name,
            Position = _session.Position,
            Purpose = purpose,
            Failed = failed,
            Brewer = brewed ? _settings.Method.Brewers[brewer].Name : null,
            Filter = brewed ? "paper" : null,
            Grinder = "flat burrs",
            Grind = Grinds[brewed ? (brewer * 3 + (int)(grind * 4)) % Grinds.Length : 0],
            Water = _waters[day],
            Recipe = brewed ? house ? "house 1:16" : "roaster's own" : null,
            RecipeFrom = brewed ? house ? SimulatedMethod.House : SimulatedMethod.Roaster : null,
            DoseGrams = brewed ? DoseGrams : 10,
            WaterGrams = brewed ? DoseGrams * ratio : 170,
            YieldGrams = measured ? Math.Round(DoseGrams * (ratio - 2.1)) : null,
            TdsPercent = measured ? Math.Round(1.25 + 0.25 * grind, 2) : null,
            WaterCelsius = brewed ? celsius : SimulatedRecipe.House.Celsius,
            BrewTime = brewed ? TimeSpan.FromSeconds(150 + 15 * (brewer % 4) + (int)(grind * 30)) : TimeSpan.FromSeconds(240),
            FrozenOn = isFrozen ? bag.Bag.OpenedOn : null,
            ThawedOn = isFrozen ? _calendar.FirstDay.AddDays(day) : null,
            BlindTo = coded ? BlindTo.Label | BlindTo.Coffee : BlindTo.Nothing,
            Score = score,
            Attributes = score is null || choice.WithoutAttributes < schedule.WithoutAttributesShare || _settings.Attributes.Count == 0
                ? ReadOnlyDictionary<TastingAttribute, double>.Empty : ScoreAttributes(coffee, brewed ? brewer : -1, quality, departure, day, random),
            Notes = _settings.WithTexts && !failed ? WriteNotes(coffee, random.Split(1)) : [],
            GuessedProcess = _settings.WithTexts && coded ? GuessProcess(coffee.Process, random.Split(2)) : null,
        };
        _tastings.Add(tasting);
    }

    private Dictionary<TastingAttribute, double> ScoreAttributes(
        CoffeeTruth coffee, int brewer, double quality, double departure, int day, RandomStream random)
    {
        var values = new Dictionary<TastingAttribute, double>(_settings.Attributes.Count);
        var brewerName = brewer < 0 ? null : _settings.Method.Brewers[brewer].Name;
        foreach (var setting in _settings.Attributes)
        {
            var impression = setting.Mean + setting.CoffeeLoading * quality + setting.CupLoading * departure
                + setting.ByProcess.GetValueOrDefault(coffee.Process)
                + (brewerName is null ? 0 : setting.ByBrewer.GetValueOrDefault(brewerName))
                + coffee.AttributeDeviations[setting.Attribute]
                + setting.DriftPerYear * (day - _calendar.MidYear) / _calendar.DayCount
                + setting.RepeatStandardDeviation * random.NextNormal();
            values[setting.Attribute] = _settings.Taster.Record(impression, Scale.Default(setting.Attribute));
        }

        return values;
    }

    private static string[] WriteNotes(CoffeeTruth coffee, RandomStream random)
    {
        Span<int> found = stackalloc int[MostNotes];
        var count = 0;
        for (var i = 0; i < coffee.Notes.Count; i++)
        {
            if (random.NextDouble() < coffee.Notes[i].Probability && count < MostNotes)
                found[count++] = i;
        }

        // Now and then something is tasted that no other cup of the coffee has.
        var stray = random.NextDouble() < 0.15 && count < MostNotes ? NoteLexicon.Word(random.NextInt32(NoteLexicon.Count)) : null;
        random.Shuffle(found[..count]);
        var notes = new List<string>(count + 1);
        foreach (var i in found[..count])
            notes.Add(coffee.Notes[i].Note);
        if (stray is not null && !notes.Contains(stray))
            notes.Add(stray);
        return [.. notes];
    }

    private string GuessProcess(string process, RandomStream random)
    {
        if (random.NextDouble() < _settings.Schedule.ProcessGuessedRight || _settings.Processes == 1)
            return process;
        var other = random.NextInt32(_settings.Processes - 1);
        var guess = InventedNames.Processes[other];
        return guess == process ? InventedNames.Processes[_settings.Processes - 1] : guess;
    }

    private int ChooseBrewer(BagState state, int rest, CupChoice choice)
    {
        var habits = _settings.Habits;
        if (habits.BestBrewerKept && state.Scored >= 3 && choice.KeepBest < 0.7)
            return state.BestBrewer();
        if (!habits.LastBrewerLate || _shares.Length == 1)
            return Chance.Pick(_shares, _shares.Sum(), choice.Brewer);
        if (rest >= habits.LateFromRestDays)
            return choice.KeepBest < 0.75 ? _shares.Length - 1 : Chance.Pick(_shares, _shares.Sum(), choice.Brewer);
        return choice.KeepBest < 0.97 ? Chance.Pick(_shares.AsSpan(..^1), _shares[..^1].Sum(), choice.Brewer) : _shares.Length - 1;
    }

    /// <summary>Another bag that is open on the day and was not dropped, in the place of one that was.</summary>
    private bool TryAnotherBag(PlannedCup cup, out int index)
    {
        var open = new List<int>();
        for (var i = 0; i < _states.Length; i++)
        {
            var bag = _shelf.Bags[i];
            if (!bag.IsControl && !_states[i].Dropped && bag.OpenDay <= cup.Day && cup.Day <= bag.LastDay && DoseGrams * (_states[i].Cups + _states[i].Left + 1) <= bag.Bag.NetWeightGrams)
                open.Add(i);
        }

        index = open.Count > 0 ? open[(int)(cup.Order * open.Count)] : -1;
        return index >= 0;
    }

    private Session NewSession(PlannedCup cup)
    {
        var random = _random.Split(1).Split((ulong)(cup.Day * 2 + (cup.Afternoon ? 1 : 0)));
        var effect = _settings.Taster.SessionStandardDeviation * random.NextNormal();
        var date = _calendar.FirstDay.AddDays(cup.Day);
        var start = date.ToDateTime(cup.Afternoon ? new TimeOnly(14, 30) : new TimeOnly(8, 10)).AddMinutes(5 * random.NextInt32(10));
        var name = date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) + (cup.Afternoon ? " afternoon" : "");
        return new Session(name, cup.Day, cup.Afternoon, effect) { Start = start };
    }

    private double BagDay(int bag, int day) => _random.Split(2).Split((ulong)(bag * 512 + day)).NextNormal();

    private string[] WaterByDay()
    {
        var water = "filtered tap";
        if (_settings.Schedule.Changes.Where(change => change.What == "water").MinBy(change => change.ChangedOn) is { } first)
            water = first.From;
        var waters = new string[_calendar.DayCount];
        Array.Fill(waters, water);
        foreach (var change in _settings.Schedule.Changes.Where(change => change.What == "water").OrderBy(change => change.ChangedOn))
        {
            var from = Math.Clamp(change.ChangedOn.DayNumber - _calendar.FirstDay.DayNumber, 0, _calendar.DayCount);
            Array.Fill(waters, change.To, from, _calendar.DayCount - from);
        }

        return waters;
    }

    /// <summary>The random numbers of one cup, always drawn in the same number, so that a habit changes nothing but what it is about.</summary>
    private readonly struct CupChoice(RandomStream random)
    {
        public readonly double Brewer = random.NextDouble();
        public readonly double Recipe = random.NextDouble();
        public readonly double Kind = random.NextDouble();
        public readonly double KeepBest = random.NextDouble();
        public readonly double Failed = random.NextDouble();
        public readonly double Spoiled = random.NextDouble();
        public readonly double CalledFailed = random.NextDouble();
        public readonly double Unscored = random.NextDouble();
        public readonly double WithoutAttributes = random.NextDouble();
        public readonly double Grind = random.NextDouble();
        public readonly double RepeatError = random.NextNormal();
        public readonly double Measured = random.NextDouble();
    }

    private sealed class Session(string name, int day, bool afternoon, double effect)
    {
        public string Name { get; } = name;

        public int Day { get; } = day;

        public bool Afternoon { get; } = afternoon;

        public double Effect { get; } = effect;

        public DateTime Start { get; init; }

        public int Position { get; set; }

        public double LastDeparture { get; set; }
    }

    private sealed class BagState(int brewers)
    {
        private readonly double[] _sums = new double[brewers];
        private readonly int[] _counts = new int[brewers];
        private double _sum;

        /// <summary>Cups brewed so far.</summary>
        public int Cups { get; set; }

        /// <summary>Planned cups still to come.</summary>
        public int Left { get; set; }

        /// <summary>Of these, cups that belong to no pair of repeats, so that another can take their place.</summary>
        public int Spare { get; set; }

        /// <summary>Planned cups that brewing again has used up.</summary>
        public int UsedUp { get; set; }

        public int Scored { get; private set; }

        public bool Dropped { get; private set; }

        public double? LastScore { get; set; }

        public void Count(double score, int brewer, double? dropBelow)
        {
            _sums[brewer] += score;
            _counts[brewer]++;
            _sum += score;
            Scored++;
            if (Scored == 2 && _sum / 2 < dropBelow)
                Dropped = true;
        }

        public int BestBrewer()
        {
            var best = -1;
            for (var b = 0; b < _sums.Length; b++)
            {
                if (_counts[b] > 0 && (best < 0 || _sums[b] / _counts[b] > _sums[best] / _counts[best]))
                    best = b;
            }

            return best;
        }
    }
}
