namespace MixEngine.Storage;
