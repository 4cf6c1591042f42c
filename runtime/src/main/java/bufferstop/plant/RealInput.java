package bufferstop.plant;

/** An input whose value a device of the real field may bring, in place of its wire. */
public interface RealInput {

  /** Whether the scan reads what the device brings, or else what the wire does. */
  void use(boolean real);

  /** What the device brought, in the encoding of the point's type. */
  void bring(long bits);

  /** Whether what it brought can be trusted. */
  void trust(boolean good);
}
