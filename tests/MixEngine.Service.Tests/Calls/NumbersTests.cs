using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Calls;

/// <summary>
/// Whatever number is put into whatever field of whatever call, the answer is an answer or a refusal that names the field, and holds no NaN.
/// The calls and fields are taken from the contract itself, so that those to come are tried too.
/// </summary>
public sealed class NumbersTests(TestService service) : IClassFixture<TestService>
{
    private static readonly double[] Doubles = [double.NaN, double.PositiveInfinity, double.NegativeInfinity, -1, -0.0, 0, double.Epsilon, 1e-300, 1e9, 1e300, double.MaxValue, double.MinValue];
    private static readonly int[] Integers = [int.MinValue, -1, 0, 1, 101, int.MaxValue];

    private static readonly FileDescriptor[] Files = [MixingReflection.Descriptor, LayeringReflection.Descriptor, ShelfReflection.Descriptor];

    /// <summary>A request to each call that would be answered, with every number in it.</summary>
    private static readonly Dictionary<string, IMessage> Valid = new()
    {
        ["Predict"] = new PredictRequest { View = View(), Recipe = Parts() },
        ["Ramp"] = new RampRequest { View = View(), Through = { Text("kelp"), Parts() }, Steps = 3, Drops = 8, TopStep = 0.9, SmallestStep = 0.5, LargestStep = 60, Keep = { 1 } },
        ["Match"] = new MatchRequest
        {
            View = View(), Target = Lab(), Paints = 1, Drops = 3, Base = Parts(), Tolerance = 0.5, Answers = 2, LightRule = "weighted",
            Lights = { new MatchLight { Name = "A", Weight = 2 }, new MatchLight { Name = "flat", Weight = 1, WavelengthNm = { 380, 730 }, RelativePower = { 1, 1 } } },
        },
        ["Glaze"] = new GlazeRequest { View = View(), Recipe = Parts(), MediumParts = 2, WaterParts = 0.5, Coats = 2, FilmThicknessUm = 20, Over = Layered(Lab()) },
        ["Cover"] = new CoverRequest { View = View(), Recipe = Parts(), Over = "grey", FilmThicknessUm = 20 },
        ["AuditRamp"] = new AuditRampRequest { View = View(), Steps = { Text("kelp"), Parts(), Text("sea lettuce") }, Drops = 8, TopStep = 0.8 },
        ["ExtendRamp"] = new ExtendRampRequest { View = View(), Steps = { Text("kelp"), Text("sea lettuce") }, End = "dark", Drops = 8 },
        ["StepBetween"] = new StepBetweenRequest { View = View(), From = Text("kelp"), To = Parts(), Drops = 8 },
        ["RampAround"] = new RampAroundRequest { View = View(), Target = Lab(), Steps = 4, Drops = 8, ChromaShare = 0.7, LightestL = 80, DarkestL = 12, Paints = 1 },
        ["GlazeTo"] = new GlazeToRequest { View = View(), Target = Lab(), Over = { Layered(Lab()) }, Recipes = { Parts() }, MediumParts = { 2, 4 }, WaterParts = 0.5, Coats = 3, FilmThicknessUm = 20, ToleranceDeltaE00 = 2 },
        ["Undercoat"] = new UndercoatRequest { View = View(), Recipe = Parts(), Over = "grey", FilmThicknessUm = 20 },
        ["Finish"] = new FinishRequest { View = View(), Recipes = { Text("kelp"), Parts() } },
        ["Light"] = new LightRequest { View = View(), Recipes = { Text("kelp"), Parts() }, Lamps = { new Lamp { Name = "desk", WavelengthNm = { 400, 550, 700 }, RelativePower = { 1, 2, 3 } } }, Target = Lab() },
        ["Eyes"] = new EyesRequest { View = View(), Recipes = { Text("kelp"), Parts() }, Eyes = { new Eye { Kind = "deutan", Severity = 0.5 } } },
        ["ListShelves"] = new ListShelvesRequest(),
        ["ImportShelf"] = new ImportShelfRequest { Shelf = "numbers", Content = ByteString.CopyFromUtf8(Coast.Table) },
        ["ExportShelf"] = new ExportShelfRequest(),
        ["ListPaints"] = new ListPaintsRequest { View = View() },
        ["GetPaint"] = new GetPaintRequest { Paint = "kelp", View = View() },
        ["RemovePaint"] = new RemovePaintRequest { Shelf = "numbers", Paint = "kelp" },
    };

    // A call that tells its way takes the request of the one that does not.
    public static TheoryData<string> Calls => [.. Files.SelectMany(file => file.Services).SelectMany(service => service.Methods).Where(method => !method.IsServerStreaming).Select(method => method.Name)];

    [Theory]
    [MemberData(nameof(Calls))]
    public void No_number_makes_a_call_fail_or_answer_with_no_number(string call)
    {
        Assert.True(Valid.ContainsKey(call), $"The contract has a call {call} that is not tried: add a valid request for it.");
        var method = Files.SelectMany(file => file.Services).SelectMany(service => service.Methods).Single(method => method.Name == call);
        service.Import("numbers", Coast.Table);
        Ask(method, Valid[call], mustBeAnswered: true);
        var tried = new[] { Valid[call], call == "Match" ? new MatchRequest { Target = Spectrum(), Paints = 1 } : Valid[call] }
            .SelectMany(request => Mutations(request, copy => copy))
            .ToArray();
        foreach (var request in tried)
        {
            service.Import("numbers", Coast.Table);
            Ask(method, request, mustBeAnswered: false);
        }

        Assert.True(tried.Length > 0 || call is "ListShelves" or "ImportShelf" or "ExportShelf" or "RemovePaint");
    }

    private void Ask(MethodDescriptor method, IMessage request, bool mustBeAnswered)
    {
        try
        {
            var answer = service.Channel.CreateCallInvoker().BlockingUnaryCall(Method(method), null, new CallOptions(deadline: DateTime.UtcNow.AddSeconds(30)), request);
            Assert.DoesNotContain(AllNumbers(answer), number => !double.IsFinite(number));
        }
        catch (RpcException refusal) when (!mustBeAnswered)
        {
            Assert.True(refusal.StatusCode is StatusCode.InvalidArgument or StatusCode.NotFound, $"{request}: {refusal.Status}");
            Assert.NotEmpty(refusal.GetRpcStatus()!.GetDetail<Google.Rpc.BadRequest>()!.FieldViolations);
        }
    }

    // The request again and again, one number in it replaced each time.
    private static IEnumerable<IMessage> Mutations(IMessage message, Func<IMessage, IMessage> rebuild)
    {
        foreach (var field in message.Descriptor.Fields.InFieldNumberOrder())
        {
            var value = field.Accessor.GetValue(message);
            if (field.FieldType is FieldType.Double or FieldType.Int32)
            {
                foreach (var replacement in field.FieldType == FieldType.Double ? Doubles.Cast<object>() : Integers.Cast<object>())
                {
                    if (field.IsRepeated && ((System.Collections.IList)value).Count > 0)
                    {
                        yield return rebuild(Copy(message, copy => ((System.Collections.IList)field.Accessor.GetValue(copy))[0] = replacement));
                    }
                    else if (!field.IsRepeated)
                    {
                        yield return rebuild(Copy(message, copy => field.Accessor.SetValue(copy, replacement)));
                    }
                }
            }
            else if (field.FieldType == FieldType.Message && field.IsRepeated)
            {
                var list = (System.Collections.IList)value;
                for (var i = 0; i < list.Count; i++)
                {
                    var place = i;
                    foreach (var changed in Mutations((IMessage)list[place]!, inner => rebuild(Copy(message, copy => ((System.Collections.IList)field.Accessor.GetValue(copy))[place] = inner))))
                    {
                        yield return changed;
                    }
                }
            }
            else if (field.FieldType == FieldType.Message && value is IMessage inner)
            {
                foreach (var changed in Mutations(inner, replaced => rebuild(Copy(message, copy => field.Accessor.SetValue(copy, replaced)))))
                {
                    yield return changed;
                }
            }
        }
    }

    private static IEnumerable<double> AllNumbers(IMessage message)
    {
        foreach (var field in message.Descriptor.Fields.InFieldNumberOrder())
        {
            var value = field.Accessor.GetValue(message);
            var values = field.IsRepeated ? ((System.Collections.IList)value).Cast<object?>() : [value];
            foreach (var number in values.SelectMany(one => one switch
            {
                IMessage inner => AllNumbers(inner),
                double number => [number],
                _ => [],
            }))
            {
                yield return number;
            }
        }
    }

    private static IMessage Copy(IMessage message, Action<IMessage> change)
    {
        var copy = message.Descriptor.Parser.ParseFrom(message.ToByteArray());
        change(copy);
        return copy;
    }

    private static Method<IMessage, IMessage> Method(MethodDescriptor method) => new(
        MethodType.Unary, method.Service.FullName, method.Name,
        Marshallers.Create(message => message.ToByteArray(), bytes => method.InputType.Parser.ParseFrom(bytes)),
        Marshallers.Create(message => message.ToByteArray(), bytes => method.OutputType.Parser.ParseFrom(bytes)));

    private static View View() => new() { ObserverDegrees = 10 };

    private static RecipeInput Text(string text) => new() { Text = text };

    private static RecipeInput Parts() => new() { Parts = { new PartInput { Paint = "kelp", Parts = 2 }, new PartInput { Paint = "chalk cliff", Parts = 1 } } };

    private static ColorInput Lab() => new() { Lab = new Lab { L = 50, A = 5, B = 10 }, ObserverDegrees = 10 };

    private static Surface Layered(ColorInput color) => new()
    {
        Color = color,
        Coats = { new Coats { Recipe = Parts(), MediumParts = 1, WaterParts = 1, Coats_ = 2, FilmThicknessUm = 15 } },
    };

    private static ColorInput Spectrum()
    {
        var spectrum = new Spectrum();
        for (var nm = 380; nm <= 730; nm += 10)
        {
            spectrum.WavelengthNm.Add(nm);
            spectrum.Reflectance.Add(nm / 1000.0);
        }

        return new ColorInput { Spectrum = spectrum };
    }
}
