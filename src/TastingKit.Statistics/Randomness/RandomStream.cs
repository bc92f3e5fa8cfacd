using System.Numerics;

namespace TastingKit.Statistics;

/// <summary>
/// A stream of pseudo-random numbers that gives the same bits for the same seed on every machine.
/// </summary>
/// <remarks>
/// The generator is xoshiro256** (Blackman and Vigna 2021) with a period of 2^256 − 1; its state is filled from the
/// seed by SplitMix64 (Steele, Lea and Flood 2014). Nothing here calls the platform's mathematical library. A stream
/// is not safe for use by two threads at once: give each unit of work its own by <see cref="Split"/>.
/// </remarks>
public sealed class RandomStream
{
    private readonly ulong _key;
    private ulong _s0;
    private ulong _s1;
    private ulong _s2;
    private ulong _s3;

    /// <summary>Starts the stream of a seed.</summary>
    /// <param name="seed">Any number, zero included; other seeds give unrelated streams.</param>
    public RandomStream(ulong seed)
    {
        _key = seed;
        ulong state = seed;
        _s0 = SplitMix64(ref state);
        _s1 = SplitMix64(ref state);
        _s2 = SplitMix64(ref state);
        _s3 = SplitMix64(ref state);
    }

    /// <summary>
    /// The stream number <paramref name="index"/> that belongs to this stream's seed.
    /// </summary>
    /// <remarks>
    /// It depends on the seed and the index alone, not on how many numbers were taken before, so that replicate 17 of
    /// a simulation is the same whichever core computes it, and in whatever order. Splits can be split again.
    /// </remarks>
    /// <param name="index">Any number; each gives its own stream.</param>
    /// <returns>A new stream at its start.</returns>
    public RandomStream Split(ulong index)
    {
        // Two rounds of mixing keep stream i of seed k apart from stream i + 1 of seed k − 1 and the like.
        ulong state = _key ^ 0x6a09e667f3bcc909UL;
        ulong mixedKey = SplitMix64(ref state);
        state = mixedKey + index;
        return new RandomStream(SplitMix64(ref state) ^ BitOperations.RotateLeft(mixedKey, 32));
    }

    /// <summary>The next 64 random bits.</summary>
    /// <returns>Any value of its type, each equally probable.</returns>
    public ulong NextUInt64()
    {
        ulong result = BitOperations.RotateLeft(_s1 * 5, 7) * 9;
        ulong t = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= t;
        _s3 = BitOperations.RotateLeft(_s3, 45);
        return result;
    }

    /// <summary>A number from the uniform distribution on [0, 1).</summary>
    /// <returns>A multiple of 2^−53; zero is possible, one is not.</returns>
    public double NextDouble() => (NextUInt64() >> 11) * (1.0 / 9007199254740992.0);

    /// <summary>An integer from 0 up to, not including, a bound; all are exactly equally probable.</summary>
    /// <param name="exclusiveUpper">The bound, at least 1.</param>
    /// <returns>An integer in [0, <paramref name="exclusiveUpper"/>).</returns>
    /// <exception cref="ArgumentOutOfRangeException">The bound is below 1.</exception>
    /// <remarks>Multiplication and rejection after Lemire (2019).</remarks>
    public int NextInt32(int exclusiveUpper)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(exclusiveUpper, 1);
        uint bound = (uint)exclusiveUpper;
        ulong product = (NextUInt64() >> 32) * bound;
        if ((uint)product < bound)
        {
            uint threshold = (0u - bound) % bound;
            while ((uint)product < threshold)
            {
                product = (NextUInt64() >> 32) * bound;
            }
        }

        return (int)(product >> 32);
    }

    /// <summary>A number from the standard normal distribution, by inversion of its distribution function.</summary>
    /// <returns>A finite number; one uniform number is used for each.</returns>
    public double NextNormal() => StandardNormal.Quantile(NextOpenDouble());

    /// <summary>A number from the gamma distribution with scale 1.</summary>
    /// <param name="shape">The shape, a positive number; it is the mean and the variance.</param>
    /// <returns>A number that is not negative.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The shape is not a positive finite number.</exception>
    /// <remarks>Marsaglia and Tsang (2000): a squeezed cube of a normal, boosted for shapes below one.</remarks>
    public double NextGamma(double shape)
    {
        if (!(shape > 0.0) || double.IsInfinity(shape))
        {
            throw new ArgumentOutOfRangeException(nameof(shape), shape, "The shape of a gamma distribution must be positive and finite.");
        }

        double boost = 1.0;
        if (shape < 1.0)
        {
            boost = PortableMath.Exp(PortableMath.Log(NextOpenDouble()) / shape);
            shape += 1.0;
        }

        double d = shape - 1.0 / 3.0;
        double c = 1.0 / Math.Sqrt(9.0 * d);
        while (true)
        {
            double x = NextNormal();
            double v = 1.0 + c * x;
            if (v <= 0.0)
            {
                continue;
            }

            v = v * v * v;
            double u = NextOpenDouble();
            if (PortableMath.Log(u) < 0.5 * x * x + d - d * v + d * PortableMath.Log(v))
            {
                return boost * d * v;
            }
        }
    }

    /// <summary>Brings items into a random order; every order is equally probable.</summary>
    /// <typeparam name="T">The type of an item.</typeparam>
    /// <param name="items">The items, shuffled in place.</param>
    public void Shuffle<T>(Span<T> items)
    {
        for (int i = items.Length - 1; i > 0; i--)
        {
            int j = NextInt32(i + 1);
            (items[i], items[j]) = (items[j], items[i]);
        }
    }

    // The midpoints of 2^52 equal cells: symmetric about one half, never 0 or 1, so that inversion stays finite.
    private double NextOpenDouble() => ((NextUInt64() >> 12) + 0.5) * (1.0 / 4503599627370496.0);

    private static ulong SplitMix64(ref ulong state)
    {
        state += 0x9e3779b97f4a7c15UL;
        ulong z = state;
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9UL;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebUL;
        return z ^ (z >> 31);
    }
}
