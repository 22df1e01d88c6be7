namespace MixEngine.Colorimetry;
