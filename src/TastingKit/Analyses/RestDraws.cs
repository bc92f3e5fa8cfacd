namespace TastingKit;

/// <summary>Joint draws of one kind's whole course over the days tasted.</summary>
internal sealed class RestDraws
{
    // The penalty takes a little off every course's span.
    private const double SureOfFlat = 0.975;

    private readonly double[][] _days;
    private readonly double[] _means;
    private readonly double[] _rises;
    private readonly double[] _falls;
    private readonly double[] _ofRises;
    private readonly double[] _ofFalls;

    /// <summary>Courses from draws of their parts.</summary>
    /// <param name="parts">Draws × parts of all kinds.</param>
    /// <param name="offset">Where this kind's parts begin.</param>
    /// <param name="weights">What each part counts for, by day.</param>
    /// <param name="firstDay">The first day tasted.</param>
    public RestDraws(PredictionDraws parts, int offset, IReadOnlyList<double[]> weights, int firstDay)
    {
        FirstDay = firstDay;
        Count = parts.Count;
        _days = [.. weights.Select(at =>
        {
            var values = new double[Count];
            for (var part = 0; part < at.Length; part++)
            {
                var column = parts.Column(offset + part);
                for (var draw = 0; draw < values.Length; draw++)
                    values[draw] += at[part] * column[draw];
            }

            return values;
        })];
        _means = [.. _days.Select(day => day.Average())];
        (_rises, _ofRises) = Against(0);
        (_falls, _ofFalls) = Against(_days.Length - 1);
    }

    public int FirstDay { get; }

    public int Count { get; }

    public int Width => _days.Length;

    public IReadOnlyList<double> Means => _means;

    /// <summary>
    /// Raises, by draw, the largest amount in standard deviations by which a day's difference from the first day tasted is overestimated: a quantile
    /// of it is what a rise must reach, so that no wrong one is called sure.
    /// </summary>
    public void RaiseLargestRise(double[] largest) => RaiseLargest(largest, 0, _rises, _ofRises);

    /// <summary>The same of a day's difference from the last day tasted, for falls.</summary>
    public void RaiseLargestFall(double[] largest) => RaiseLargest(largest, Width - 1, _falls, _ofFalls);

    private void RaiseLargest(double[] largest, int against, double[] means, double[] deviations)
    {
        for (var day = 0; day < Width; day++)
        {
            if (deviations[day] <= 0)
                continue;
            for (var draw = 0; draw < Count; draw++)
                largest[draw] = Math.Max(largest[draw], (means[day] - (_days[day][draw] - _days[against][draw])) / deviations[day]);
        }
    }

    /// <summary>Mean and the middle 95 % of one day.</summary>
    public (double Mean, double Low, double High) Middle(int day)
    {
        double[] sorted = [.. _days[day].Order()];
        return (_means[day], Quantiles.OfSorted(sorted, 0.025), Quantiles.OfSorted(sorted, 0.975));
    }

    /// <summary>By day, the share of draws in which it lies within a distance of that draw's best day.</summary>
    public double[] NearBest(double distance)
    {
        var near = new double[Width];
        for (var draw = 0; draw < Count; draw++)
        {
            var best = _days.Max(day => day[draw]);
            for (var day = 0; day < Width; day++)
                near[day] += _days[day][draw] >= best - distance ? 1 : 0;
        }

        return [.. near.Select(draws => draws / Count)];
    }

    /// <summary>The middle 95 % of the draws' highest days.</summary>
    public (int Low, int High) BestInterval()
    {
        var peaks = Peaks(0);
        return (FirstDay + (int)Math.Round(Quantiles.OfSorted(peaks, 0.025)), FirstDay + (int)Math.Round(Quantiles.OfSorted(peaks, 0.975)));
    }

    /// <summary>The share of draws whose highest day is neither the first nor the last.</summary>
    public double PeakInside()
    {
        var inside = 0;
        for (var draw = 0; draw < Count; draw++)
        {
            var best = double.MinValue;
            for (var day = 1; day < Width - 1; day++)
                best = Math.Max(best, _days[day][draw]);
            inside += best > Math.Max(_days[0][draw], _days[^1][draw]) ? 1 : 0;
        }

        return inside / (double)Count;
    }

    /// <summary>What may be said, a drift of the scale taken off.</summary>
    /// <param name="reach">How many standard deviations a rise and a fall must reach to be sure, and the probability with which a peak must lie above either end.</param>
    /// <param name="margin">The difference from which one matters.</param>
    /// <param name="perDay">The drift in points a day.</param>
    public RestOutcome Outcome((double Rise, double Fall, double Peak) reach, double margin, double perDay)
    {
        var last = Width - 1;
        bool Rises(int day) => Sure(_rises[day] - (perDay * day), _ofRises[day], reach.Rise);
        bool Falls(int day) => Sure(_falls[day] + (perDay * (last - day)), _ofFalls[day], reach.Fall);
        bool Sure(double difference, double deviation, double multiplier) => deviation > 0 && difference > multiplier * deviation;

        // One day is held against both ends: the highest of each draw lies above them too often where coffees reach a level and stay there.
        var top = Enumerable.Range(0, Width).MaxBy(day => _means[day] - (perDay * day));
        if (Higher(top, 0, perDay) >= reach.Peak && Higher(top, last, perDay) >= reach.Peak)
        {
            var peaks = Peaks(perDay);
            return new RestOutcome.Peak(
                FirstDay + top, FirstDay + (int)Math.Round(Quantiles.OfSorted(peaks, 0.025)), FirstDay + (int)Math.Round(Quantiles.OfSorted(peaks, 0.975)));
        }

        // A rise over the last quarter is a last day above the quarter's first, which is a negative fall.
        var quarter = Math.Max(1, last / 4);
        if (Rises(last) && Sure(-(_falls[last - quarter] + (perDay * quarter)), _ofFalls[last - quarter], reach.Rise))
            return new RestOutcome.StillRising();
        if (Falls(0) && Sure(-(_rises[quarter] - (perDay * quarter)), _ofRises[quarter], reach.Fall))
            return new RestOutcome.FallingFromTheStart();
        if (IsFlat(margin, perDay))
            return new RestOutcome.Flat(margin);
        var rise = Enumerable.Range(1, last).Any(Rises);
        var fall = Enumerable.Range(0, last).Any(Falls);
        return new RestOutcome.Undetermined((rise, fall) switch
        {
            (true, true) => "it rises and it falls over the days tasted, but that its best day lies between is not sure",
            (true, false) => "it rises at first; whether it falls again within the days tasted is not sure",
            (false, true) => "it falls in the end; whether it rises before that within the days tasted is not sure",
            _ => "neither a rise nor a fall over the days tasted is sure, which is not the same as none",
        });
    }

    /// <summary>The share of draws in which one day lies above another, a drift in points a day taken off.</summary>
    private double Higher(int day, int other, double perDay)
    {
        var higher = 0;
        for (var draw = 0; draw < Count; draw++)
            higher += _days[day][draw] - (perDay * day) > _days[other][draw] - (perDay * other) ? 1 : 0;
        return higher / (double)Count;
    }

    private bool IsFlat(double margin, double perDay)
    {
        var spans = new double[Count];
        for (var draw = 0; draw < Count; draw++)
        {
            double low = double.MaxValue, high = double.MinValue;
            for (var day = 0; day < Width; day++)
            {
                var value = _days[day][draw] - (perDay * day);
                (low, high) = (Math.Min(low, value), Math.Max(high, value));
            }

            spans[draw] = high - low;
        }

        Array.Sort(spans);
        return Quantiles.OfSorted(spans, SureOfFlat) < margin;
    }

    /// <summary>The highest day of each draw, from 0, in rising order.</summary>
    private double[] Peaks(double perDay)
    {
        var peaks = new double[Count];
        for (var draw = 0; draw < Count; draw++)
        {
            var peak = 0;
            for (var day = 1; day < Width; day++)
            {
                if (_days[day][draw] - (perDay * day) > _days[peak][draw] - (perDay * peak))
                    peak = day;
            }

            peaks[draw] = peak;
        }

        Array.Sort(peaks);
        return peaks;
    }

    private (double[] Means, double[] Deviations) Against(int other)
    {
        var means = new double[Width];
        var deviations = new double[Width];
        for (var day = 0; day < Width; day++)
        {
            means[day] = _means[day] - _means[other];
            var squares = 0.0;
            for (var draw = 0; draw < Count; draw++)
            {
                var distance = _days[day][draw] - _days[other][draw] - means[day];
                squares += distance * distance;
            }

            deviations[day] = Math.Sqrt(squares / (Count - 1));
        }

        return (means, deviations);
    }
}
