using CsCheck;

namespace TastingKit.Tests.Log.Properties;

/// <summary>Holds a property against many generated inputs, the same ones each time.</summary>
internal static class Property
{
    private const ulong Seed = 20251126;

    /// <summary>How many inputs a property gets: a fifth of what TASTINGKIT_FUZZ_INPUTS says, or of 5,000.</summary>
    public static int Inputs { get; } =
        int.Parse(Environment.GetEnvironmentVariable("TASTINGKIT_FUZZ_INPUTS") ?? "5000", System.Globalization.CultureInfo.InvariantCulture) / 5;

    /// <summary>Tries the property on every input. One that breaks it is made smaller by CsCheck before it is reported.</summary>
    public static void Holds<T>(Gen<T> inputs, Action<T> property)
    {
        for (var i = 0U; i < Inputs; i++)
        {
            var random = new PCG(i, Seed);
            var state = random.State;
            var input = inputs.Generate(random, null, out _);
            try
            {
                property(input);
            }
            catch (Exception)
            {
                inputs.Sample(property, seed: random.ToString(state), iter: 2000, threads: 1);
                throw;
            }
        }
    }
}
