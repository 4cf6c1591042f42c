"""A SunSpec reader on pymodbus that knows two rules: find the marker, step by length. sunspec.py PORT UNIT..."""
import struct
import sys

from pymodbus.client import ModbusTcpClient

client = ModbusTcpClient("127.0.0.1", port=int(sys.argv[1]))
assert client.connect()


def registers(unit, address, count):
    found = []
    while count > 0:
        part = min(count, 125)
        answer = client.read_holding_registers(address, part, slave=unit)
        if answer.isError():
            return None
        found += answer.registers
        address, count = address + part, count - part
    return found


for unit in map(int, sys.argv[2:]):
    base = next(b for b in (40000, 0, 50000) if registers(unit, b, 2) == [0x5375, 0x6E53])
    at, models = base + 2, {}
    while True:
        model, length = registers(unit, at, 2)
        if model == 0xFFFF:
            assert length == 0
            break
        models[model] = registers(unit, at, 2 + length)
        at += 2 + length
    assert registers(unit, at + 2, 1) is None, "something stands behind the end"
    common = struct.pack(">68H", *models[1])
    whole = next(models[m] for m in (201, 203) if m in models)
    real = next(models[m] for m in (211, 213) if m in models)
    signed = struct.unpack(">107h", struct.pack(">107H", *whole))
    words = struct.pack(">126H", *real)
    scale = signed[22]
    print(
        unit,
        base,
        "/".join(f"{m}:{len(models[m]) - 2}" for m in models),
        common[4:36].rstrip(b"\0").decode("ascii"),
        common[100:132].rstrip(b"\0").decode("ascii"),
        "%.3f" % (signed[18] * 10.0**scale),
        "%.3f" % struct.unpack_from(">f", words, 56),
        sep="|",
    )
print("all good")
