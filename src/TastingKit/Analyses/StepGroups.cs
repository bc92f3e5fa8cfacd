namespace TastingKit;

/// <summary>The steps of a scale as cups have them, and those hardly used taken together with their neighbours.</summary>
internal sealed class StepGroups
{
    private const int FewestCupsAQuarter = 8;
    private const int FewestCupsInEach = 2;
    private const int MostGroups = 12;

    private readonly int[] _firstSteps;

    private StepGroups(int[] firstSteps) => _firstSteps = firstSteps;

    /// <summary>How many groups there are.</summary>
    public int Count => _firstSteps.Length;

    /// <summary>The number of a value's nearest step, 0 for the lowest of the scale.</summary>
    public static int NumberOf(double value, Scale scale) => (int)Math.Round((value - scale.Min) / scale.Step, MidpointRounding.AwayFromZero);

    /// <summary>The value of a step.</summary>
    public static double ValueOf(int step, Scale scale) => scale.Min + (step * scale.Step);

    /// <summary>
    /// Taken together from the top down until each group has eight cups a quarter over the whole log, a twelfth of all cups, and two in each quarter.
    /// The number over the whole log decides and not that of one quarter, so that a quarter's use does not choose what it is tested by.
    /// </summary>
    /// <param name="steps">The step of each cup.</param>
    /// <param name="quarters">The quarter of each cup, from 0.</param>
    public static StepGroups Of(IReadOnlyList<int> steps, IReadOnlyList<int> quarters)
    {
        var count = quarters.Max() + 1;
        var fewest = Math.Max(FewestCupsAQuarter * count, (steps.Count + MostGroups - 1) / MostGroups);
        var first = new List<int>();
        var inQuarter = new int[count];
        foreach (var step in steps.Index().GroupBy(cup => cup.Item, cup => quarters[cup.Index]).OrderByDescending(step => step.Key))
        {
            foreach (var quarter in step)
                inQuarter[quarter]++;
            if (inQuarter.Sum() < fewest || inQuarter.Min() < FewestCupsInEach)
                continue;
            first.Add(step.Key);
            Array.Clear(inQuarter);
        }

        // What is left at the bottom is too little for a group, and joins the last one.
        if (first.Count == 0)
            first.Add(0);
        first[^1] = steps.Min();
        return new StepGroups([.. first.Order()]);
    }

    /// <summary>The group of a step.</summary>
    public int GroupOf(int step) => Math.Max(0, _firstSteps.AsSpan().LastIndexOfAnyInRange(int.MinValue, step));

    /// <summary>The lowest step of a group.</summary>
    public int FirstOf(int group) => _firstSteps[group];
}
