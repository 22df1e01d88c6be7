namespace MixEngine.Cli.Demo;

/// <summary>One page of the story: what the painter wonders, and the command that answers.</summary>
/// <param name="Tale">Paragraphs, told before the command.</param>
/// <param name="Command">The command as it would be typed after "mixengine".</param>
/// <param name="Moral">Said after the answer, whatever it was.</param>
internal sealed record StoryPage(string[] Tale, string[] Command, string Moral);

/// <summary>The tide-folk of the Lowwater coast, invented like their paints, ask the five questions.</summary>
internal static class Story
{
    public const string Title = "THE TIDE-FOLK OF LOWWATER";

    public static readonly string[] Beginning =
    [
        "Where the sea goes out for miles, the tide-folk walk after it. They mend nets, burn kelp, hang yellow buoys over the channels, "
        + "and are home before the water is. Forty of them, a thumb high, stand primed on your table.",
        "On the shelf beside them: paints of two makers, Skerryfast in big drops and Wrackline in small ones. "
        + "Coast, folk, makers and paints are invented; what happens when the paints are mixed is not: it is computed, here and now, "
        + "by the same engine that will know your own bottles.",
    ];

    public static readonly StoryPage[] Pages =
    [
        new(
            [
                "1. What do I get?",
                "Their coats are rope soaked in tar, gone green at the hem. Two drops of tarred rope and one of kelp, then. "
                + "On the palette it looks like mud; how will it dry?",
            ],
            ["predict", "2 tarred rope + 1 kelp"],
            "The line that begins with a judgement is the engine's honesty. Of each of these paints it knows a hex and a word; "
            + "that is how far such knowledge carries, in the differences that eyes see (CIEDE2000: below 0.5 nobody sees it, 3 is seen at a glance)."),
        new(
            [
                "2. How do I step?",
                "From the shadow in the folds up to the wet light on the shoulder: tarred rope, through kelp, to sea lettuce. "
                + "Equal parts are not equal steps, and unequal steps are bands. So let the drops be chosen by how far the eye jumps.",
            ],
            ["ramp", "tarred rope", "kelp", "sea lettuce", "--steps", "6", "--drops", "6"],
            "Trust the bars where you do not trust your eye: bars of one length are steps of one size. Where two differ, whole drops allow no better."),
        new(
            [
                "3. How do I reach it?",
                "You found a pebble on a real beach, and the elder's cloak shall be that green. No bottle has it. Which three come nearest, and in which drops?",
            ],
            ["match", "#5a6b3c", "--paints", "3", "--drops", "6"],
            "\"Cannot be reached\" is an answer too. It comes with the best there is, with what stands in the way, and with what one drop too many would do."),
        new(
            [
                "4. What does a glaze do?",
                "The rocks they stand on are painted grey, and dry. Thin tide pool with six parts of medium, and lay it over three times. "
                + "Each coat is seen here before it is painted.",
            ],
            ["glaze", "tide pool", "--medium", "6", "--coats", "3", "--over", "#c9c9c9"],
            "Medium thins a paint and keeps its film whole. Water thins it too, and beyond about a third of it the film breaks up (common practice)."),
        new(
            [
                "5. Does it cover?",
                "And the buoys. Yellow is a bright word and a thin paint, and you primed them black.",
            ],
            ["cover", "buoy yellow", "--over", "black"],
            "If that is more patience than forty buoys are worth: prime them white, and ask again."),
    ];

    public static readonly string[] Army =
    [
        "6. And all of them?",
        "Net casters, mud walkers, heron riders, the drowned bell: a dozen kinds of figures, some forty areas, decided once and held for half a year. Which bottles stay on the "
        + "table, which pots to mix and how much of each, and one card for each figure, to paint from with wet hands. A trader's boat lies at the quay: is anything aboard worth buying?",
    ];

    public static readonly string[] Caution =
    [
        "If you spray primer or varnish: fresh air and a mask made for it, and the maker's safety sheet before any rule of thumb.",
    ];

    public static readonly (string Why, string Command)[] TryNext =
    [
        ("See the shelf:", "mixengine shelf list --shelf demo"),
        ("The same yellow over a white primer:", "mixengine cover \"buoy yellow\" --over white --shelf demo"),
        ("Skin, without chalk:", "mixengine ramp \"old net\" \"wind-bitten cheek\" \"weathered bone\" --shelf demo"),
        ("The coat under a warm lamp:", "mixengine predict \"2 tarred rope + 1 kelp\" --light A --shelf demo"),
        ("The army from the boat's paints alone, step by step beside your own:", "mixengine scheme compare 1 --other-shelf demo-boat"),
        ("A table of your own to begin with:", "mixengine demo --csv > my-paints.csv"),
        ("Then:", "mixengine shelf import my-paints.csv"),
    ];
}
