package bufferstop.modbus;

/** The functions served. Source: Modbus Application Protocol V1.1b3, 5 and 6 [re-read]. */
final class FunctionCode {
  static final int READ_COILS = 1;
  static final int READ_DISCRETE_INPUTS = 2;
  static final int READ_HOLDING_REGISTERS = 3;
  static final int READ_INPUT_REGISTERS = 4;
  static final int WRITE_SINGLE_COIL = 5;
  static final int WRITE_SINGLE_REGISTER = 6;
  static final int WRITE_MULTIPLE_COILS = 15;
  static final int WRITE_MULTIPLE_REGISTERS = 16;
  static final int MASK_WRITE_REGISTER = 22;
  static final int READ_WRITE_MULTIPLE_REGISTERS = 23;
  static final int ENCAPSULATED_INTERFACE = 43;

  private FunctionCode() {}
}
