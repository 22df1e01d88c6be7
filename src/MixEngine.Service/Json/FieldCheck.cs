using System.Globalization;
using System.Text.Json;
using Google.Protobuf.Reflection;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Json;

/// <summary>Holds JSON against the message that it is to become: every name must be a field, and every value of the field's kind.</summary>
/// <remarks>
/// Read without this check, a misspelt name would be passed over, and the answer would be to another question than the one asked;
/// a value of another kind would be refused without being named.
/// </remarks>
internal static class FieldCheck
{
    /// <summary>Notes what is wrong with an object.</summary>
    /// <param name="json">The value.</param>
    /// <param name="message">What it is to become.</param>
    /// <param name="path">Its place in the request; empty for the request itself.</param>
    /// <param name="violations">Where to note it.</param>
    public static void Check(JsonElement json, MessageDescriptor message, string path, Violations violations)
    {
        if (json.ValueKind != JsonValueKind.Object)
        {
            Refuse(path, json, "an object", violations);
            return;
        }

        var chosen = new Dictionary<OneofDescriptor, string>();
        foreach (var property in json.EnumerateObject().Where(property => property.Value.ValueKind != JsonValueKind.Null))
        {
            if (FieldNamed(property.Name, message) is not { } field)
            {
                violations.Add(Join(path, Shown.Of(property.Name)), NoSuchField(property.Name, message));
                continue;
            }

            // Of alternatives one may be given.
            if (field.RealContainingOneof is { } oneof && !chosen.TryAdd(oneof, field.Name) && chosen[oneof] != field.Name)
            {
                violations.Add(Join(path, field.Name), $"{chosen[oneof]} is given too; give one of them.");
            }

            CheckField(property.Value, field, Join(path, field.Name), violations);
        }
    }

    /// <summary>Notes what is wrong with a value that stands in a query, where every value is text.</summary>
    /// <param name="name">Its name: fields with dots between them.</param>
    /// <param name="value">Its text.</param>
    /// <param name="message">The request.</param>
    /// <param name="violations">Where to note it.</param>
    public static void CheckQuery(string name, string value, MessageDescriptor message, Violations violations)
    {
        FieldDescriptor? field = null;
        foreach (var step in name.Split('.'))
        {
            var within = field is null ? message : field.FieldType == FieldType.Message ? field.MessageType : null;
            field = within is null ? null : FieldNamed(step, within);
            if (field is null)
            {
                violations.Add(Shown.Of(name), NoSuchField(step, within ?? message));
                return;
            }
        }

        if (!IsText(value, field!.FieldType))
        {
            violations.Add(name, $"'{Shown.Of(value)}' stands where {Kind(field.FieldType)} is needed.");
        }
    }

    private static void CheckField(JsonElement json, FieldDescriptor field, string path, Violations violations)
    {
        if (!field.IsRepeated)
        {
            CheckValue(json, field, path, violations);
            return;
        }

        if (json.ValueKind != JsonValueKind.Array)
        {
            Refuse(path, json, "a list", violations);
            return;
        }

        var place = 0;
        foreach (var element in json.EnumerateArray())
        {
            CheckValue(element, field, $"{path}[{place++}]", violations);
        }
    }

    private static void CheckValue(JsonElement json, FieldDescriptor field, string path, Violations violations)
    {
        if (field.FieldType == FieldType.Message)
        {
            Check(json, field.MessageType, path, violations);
        }
        else if (!IsValue(json, field.FieldType))
        {
            Refuse(path, json, Kind(field.FieldType), violations);
        }
    }

    private static bool IsValue(JsonElement json, FieldType type) => (json.ValueKind, type) switch
    {
        (JsonValueKind.True or JsonValueKind.False, FieldType.Bool) => true,
        (JsonValueKind.String, not FieldType.Bool) => IsText(json.GetString()!, type),
        (JsonValueKind.Number, FieldType.Double) => json.TryGetDouble(out _),
        (JsonValueKind.Number, FieldType.Int32) => json.TryGetInt32(out _),
        (JsonValueKind.Number, FieldType.Int64) => json.TryGetInt64(out _),
        _ => false,
    };

    private static bool IsText(string text, FieldType type) => type switch
    {
        FieldType.String => true,
        FieldType.Bytes => Convert.TryFromBase64String(text, new byte[text.Length], out _),
        FieldType.Bool => bool.TryParse(text, out _),
        FieldType.Double => text is "NaN" or "Infinity" or "-Infinity" || double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _),
        FieldType.Int32 => int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out _),
        FieldType.Int64 => long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out _),
        _ => false,
    };

    private static string Kind(FieldType type) => type switch
    {
        FieldType.String => "a text",
        FieldType.Bytes => "a file's bytes in base64",
        FieldType.Bool => "true or false",
        FieldType.Double => "a number",
        FieldType.Int32 or FieldType.Int64 => "a whole number",
        FieldType.Message => "an object",
        _ => "another kind of value",
    };

    private static FieldDescriptor? FieldNamed(string name, MessageDescriptor message) =>
        message.Fields.InDeclarationOrder().FirstOrDefault(field => field.JsonName == name || field.Name == name);

    private static string NoSuchField(string name, MessageDescriptor message)
    {
        var names = message.Fields.InDeclarationOrder().Select(field => field.JsonName).ToArray();
        var nearest = names.Where(field => EditDistance.ToBeginning(name.ToLowerInvariant(), field.ToLowerInvariant()) <= Math.Max(1, name.Length / 3));
        return $"There is no field '{Shown.Of(name)}' here. "
            + (nearest.MinBy(field => EditDistance.ToBeginning(name.ToLowerInvariant(), field.ToLowerInvariant())) is { } meant
                ? $"The nearest: '{meant}'."
                : names.Length == 0 ? "There are none." : $"There are {string.Join(", ", names)}.");
    }

    private static void Refuse(string path, JsonElement json, string expected, Violations violations) =>
        violations.Add(path.Length == 0 ? "body" : path, $"{Shown.Of(json.GetRawText())} stands where {expected} is needed.");

    private static string Join(string path, string name) => path.Length == 0 ? name : $"{path}.{name}";
}
