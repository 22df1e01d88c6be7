namespace MixEngine.Core;

/// <summary>A small palette that meets a sample of the demands: where not every option can be kept, those of its paints are worth most.</summary>
internal static class CorePaints
{
    /// <summary>Bottles are given up one by one, those that serve fewest first and those on the table last, as long as every demand of the sample can still be met.</summary>
    /// <param name="paints">Number of paints on the shelf.</param>
    /// <param name="sets">For each demand of the sample the sets of paints that meet it; none is empty.</param>
    /// <param name="onTable">Which paints stand on the table.</param>
    /// <returns>For each paint whether it is one of the palette.</returns>
    public static bool[] Of(int paints, IReadOnlyList<IReadOnlyList<int[]>> sets, IReadOnlyList<bool> onTable)
    {
        // Where each paint is needed: the demands and the sets of them that fall with it.
        var needs = Enumerable.Range(0, paints).Select(_ => new List<(int Demand, int Set)>()).ToArray();
        for (var d = 0; d < sets.Count; d++)
        {
            for (var s = 0; s < sets[d].Count; s++)
            {
                foreach (var paint in sets[d][s])
                {
                    needs[paint].Add((d, s));
                }
            }
        }

        var serves = needs.Select(of => of.Select(need => need.Demand).Distinct().Count()).ToArray();
        var core = serves.Select(demands => demands > 0).ToArray();
        var missing = sets.Select(of => new int[of.Count]).ToArray();
        var possible = sets.Select(of => of.Count).ToArray();
        foreach (var paint in Enumerable.Range(0, paints).Where(paint => core[paint]).OrderBy(paint => onTable[paint]).ThenBy(paint => serves[paint]).ThenBy(paint => paint))
        {
            Remove(needs[paint]);
            core[paint] = needs[paint].Exists(need => possible[need.Demand] == 0);
            if (core[paint])
            {
                PutBack(needs[paint]);
            }
        }

        return core;

        void Remove(List<(int Demand, int Set)> of)
        {
            foreach (var (demand, set) in of)
            {
                possible[demand] -= missing[demand][set]++ == 0 ? 1 : 0;
            }
        }

        void PutBack(List<(int Demand, int Set)> of)
        {
            foreach (var (demand, set) in of)
            {
                possible[demand] += --missing[demand][set] == 0 ? 1 : 0;
            }
        }
    }
}
