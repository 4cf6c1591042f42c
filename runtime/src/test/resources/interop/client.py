"""A client on pymodbus: every table and type of the project beside it. client.py PORT VECTORS"""
import struct
import sys

from pymodbus.client import ModbusTcpClient
from pymodbus.mei_message import ReadDeviceInformationRequest
from pymodbus.register_read_message import ReadWriteMultipleRegistersRequest
from pymodbus.register_write_message import MaskWriteRegisterRequest

UNIT = 7
client = ModbusTcpClient("127.0.0.1", port=int(sys.argv[1]))
assert client.connect()


def good(answer):
    assert not answer.isError(), answer
    return answer


def refused(answer, code):
    assert answer.isError() and answer.exception_code == code, answer


for line in open(sys.argv[2], encoding="ascii"):
    kind, address, *words = line.split()
    address, words = int(address), [int(word, 16) for word in words]
    good(client.write_registers(address, words, slave=UNIT))
    for read in (client.read_holding_registers, client.read_input_registers):
        found = good(read(address, len(words), slave=UNIT)).registers
        assert found == words, (kind, found)

pattern = [True, False, True, True, False, False, True, True, True, False]
good(client.write_coils(0, pattern, slave=UNIT))
assert good(client.read_coils(0, 10, slave=UNIT)).bits[:10] == pattern
good(client.write_coil(1, True, slave=UNIT))
pattern[1] = True
assert good(client.read_discrete_inputs(0, 10, slave=UNIT)).bits[:10] == pattern

good(client.write_register(4, 0x00F2, slave=UNIT))
good(client.execute(MaskWriteRegisterRequest(4, 0x00F0, 0x0025, unit=UNIT)))
assert good(client.read_holding_registers(4, 1, slave=UNIT)).registers == [0x00F5]
both = ReadWriteMultipleRegistersRequest(
    read_address=2, read_count=3, write_address=4, write_registers=[0x0102], unit=UNIT
)
assert good(client.execute(both)).registers[2] == 0x0102

words = list(struct.unpack(">HH", struct.pack(">f", 230.1)))
good(client.write_registers(18, words, slave=UNIT))
found = good(client.read_input_registers(18, 2, slave=UNIT)).registers
assert abs(struct.unpack(">f", struct.pack(">HH", *found))[0] - 230.1) < 1e-4

information = good(client.execute(ReadDeviceInformationRequest(0x01, 0x00, unit=1))).information
assert information[0] == b"Hollin bench", information
assert information[2] == b"1.2", information

refused(client.read_holding_registers(90, 1, slave=UNIT), 2)
refused(client.write_register(3, 256, slave=UNIT), 4)
refused(client.write_register(6, 1, slave=UNIT), 2)
refused(client.read_holding_registers(0, 1, slave=99), 10)
client.close()
print("all good")
