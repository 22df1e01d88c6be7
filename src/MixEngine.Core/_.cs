namespace MixEngine.Core;
