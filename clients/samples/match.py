"""Asks for a colour over gRPC, with stubs made from the protos on the spot.   match.py '#5a6b3c' [http://127.0.0.1:7401]"""
import importlib
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from urllib.parse import urlsplit

import grpc

HERE = Path(__file__).resolve().parent
PROTOS = HERE.parent.parent / "protos"

# Those of Google that ours import.
GOOGLE = HERE / "google-protos"


def stubs():
    """Generates the Python classes of the contract into a temporary folder, and imports them."""
    out = tempfile.mkdtemp(prefix="mixengine-stubs-")
    files = [str(path.relative_to(root)) for root in (PROTOS, GOOGLE) for path in root.rglob("*.proto")]
    plugin = shutil.which("grpc_python_plugin")
    subprocess.run(["protoc", f"-I{PROTOS}", f"-I{GOOGLE}", f"--python_out={out}", f"--grpc_out={out}", f"--plugin=protoc-gen-grpc={plugin}", *files], check=True)
    sys.path.insert(0, out)
    return [importlib.import_module(f"mixengine.v1.{name}") for name in ("mixing_pb2", "mixing_pb2_grpc", "shelf_pb2", "shelf_pb2_grpc")]


def channel_to(address, authority):
    """Over https:// encrypted; MIXENGINE_CA stands in for the authorities that gRPC knows."""
    url = urlsplit(address)
    if url.scheme != "https":
        return grpc.insecure_channel(url.netloc)
    return grpc.secure_channel(url.netloc, grpc.ssl_channel_credentials(Path(authority).read_bytes() if authority else None))


def main():
    target = sys.argv[1]
    address = sys.argv[2] if len(sys.argv) > 2 else os.environ.get("MIXENGINE_ADDRESS") or "http://127.0.0.1:7401"
    key = os.environ.get("MIXENGINE_KEY")
    metadata = [("authorization", f"Bearer {key}")] if key else []
    mixing, mixing_grpc, shelf, shelf_grpc = stubs()
    with channel_to(address, os.environ.get("MIXENGINE_CA")) as channel:
        request = mixing.MatchRequest(shelf="samples")
        request.target.text = target
        try:
            shelf_grpc.ShelvesStub(channel).ImportShelf(
                shelf.ImportShelfRequest(shelf="samples", file_name="coast.csv", content=(HERE / "coast.csv").read_bytes()), metadata=metadata, timeout=60)
            answer = mixing_grpc.MixingStub(channel).Match(request, metadata=metadata, timeout=60)
        except grpc.RpcError as refusal:
            sys.exit(refusal.details())
    best = answer.matches[0]
    print(f"{best.recipe.text} gives {best.color.hex}, {best.color.words}, {best.delta_e00:.2f} from the target")


if __name__ == "__main__":
    main()
