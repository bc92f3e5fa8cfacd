namespace TastingKit.Statistics;

/// <summary>The logarithm of a product of many positive numbers with one logarithm for many factors.</summary>
internal struct LogProduct
{
    private double _product;
    private double _logarithm;

    public static LogProduct One => new() { _product = 1 };

    public readonly double Logarithm => _logarithm + PortableMath.Log(_product);

    public void Multiply(double factor)
    {
        _product *= factor;
        if (_product is > 1e-100 and < 1e100) return;
        _logarithm += PortableMath.Log(_product);
        _product = 1;
    }
}
