namespace MixEngine.Interchange;
