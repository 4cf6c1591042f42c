package bufferstop.modbus;

/** Whatever answers a PDU with a PDU, both in hex. */
interface Answering {
  String answer(String pdu);
}
