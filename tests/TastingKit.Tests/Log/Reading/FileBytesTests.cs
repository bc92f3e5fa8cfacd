using TastingKit.Reading;
using TastingKit.Statistics;

namespace TastingKit.Tests.Log.Reading;

public sealed class FileBytesTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(1000)]
    [InlineData((1 << 24) + 3)]
    public void GivesEveryByteOfAFileWhetherItIsReadWholeOrInHalves(int length)
    {
        string path = Path.GetTempFileName();
        try
        {
            var bytes = new byte[length];
            var random = new RandomStream(3);
            for (int i = 0; i < length; i++)
                bytes[i] = (byte)random.NextInt32(256);
            File.WriteAllBytes(path, bytes);

            Assert.True(bytes.AsSpan().SequenceEqual(FileBytes.Read(path)));
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void SaysOfAFileThatIsNotThere() => Assert.ThrowsAny<IOException>(() => FileBytes.Read(Path.Combine(Path.GetTempPath(), Path.GetRandomFileName())));
}
