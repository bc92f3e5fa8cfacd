using System.Reflection;
using System.Runtime.CompilerServices;
using System.Xml.Linq;

namespace TastingKit.Cli.Tests.Architecture;

/// <summary>What every public type keeps to: it does not change once made, and it says what it is.</summary>
public sealed class PublicTypesTests
{
    private static readonly string[] Libraries = ["TastingKit.Statistics", "TastingKit", "TastingKit.Charts", "TastingKit.Pages"];

    private static readonly Type[] ChangingCollections =
        [typeof(List<>), typeof(Dictionary<,>), typeof(HashSet<>), typeof(IList<>), typeof(ICollection<>), typeof(IDictionary<,>), typeof(ISet<>), typeof(SortedDictionary<,>)];

    /// <summary>What cells set in a notebook they also set in the script made of it.</summary>
    private static readonly string[] SetByCells = ["ScriptedNotebook.LogFolder"];

    public static TheoryData<string> Rooms => [.. Libraries];

    /// <summary>The rooms whose types are values that people hold on to; Statistics hands out arrays by design of its matrices.</summary>
    public static TheoryData<string> RoomsOfValues => ["TastingKit", "TastingKit.Charts", "TastingKit.Pages"];

    private static IEnumerable<Type> PublicTypes(string room) => Assembly.Load(room).GetExportedTypes();

    [Theory]
    [MemberData(nameof(RoomsOfValues))]
    public void A_public_type_does_not_change_once_made(string room)
    {
        var changing = new List<string>();
        foreach (var type in PublicTypes(room).Where(type => !type.IsEnum && !type.IsInterface && !typeof(Exception).IsAssignableFrom(type) && !typeof(Delegate).IsAssignableFrom(type)))
        {
            const BindingFlags Declared = BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
            changing.AddRange(type.GetFields(Declared).Where(field => !field.IsInitOnly && !field.IsLiteral).Select(field => $"{type.Name}.{field.Name} is a field that can be set"));
            foreach (var property in type.GetProperties(Declared))
            {
                if (!SetByCells.Contains($"{type.Name}.{property.Name}") && property.SetMethod is { IsPublic: true } set && !set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit)))
                    changing.Add($"{type.Name}.{property.Name} can be set");
                if (property.PropertyType.IsArray || (property.PropertyType.IsGenericType && ChangingCollections.Contains(property.PropertyType.GetGenericTypeDefinition())))
                    changing.Add($"{type.Name}.{property.Name} hands out a {property.PropertyType.Name} that can be changed");
            }
        }

        Assert.True(changing.Count == 0, string.Join("; ", changing));
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_public_class_is_sealed_or_meant_to_be_derived_from(string room) =>
        Assert.DoesNotContain(PublicTypes(room), type => type is { IsClass: true, IsSealed: false, IsAbstract: false });

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_public_type_stands_in_the_root_namespace_of_its_room(string room) =>
        Assert.DoesNotContain(PublicTypes(room), type => type.Namespace != room);

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_public_type_says_what_it_is(string room)
    {
        var members = XDocument.Load(Path.Combine(AppContext.BaseDirectory, room + ".xml")).Descendants("member")
            .ToDictionary(member => (string)member.Attribute("name")!, member => member.Element("summary")?.Value.Trim() ?? "");
        var silent = PublicTypes(room)
            .Where(type => !members.TryGetValue("T:" + type.FullName!.Replace('+', '.'), out var summary) || summary.Length < "Words.".Length)
            .Select(type => type.FullName);
        Assert.Empty(silent);
    }
}
