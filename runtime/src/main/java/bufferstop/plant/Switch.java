package bufferstop.plant;

/** Something resolved and ready to be done to the field; the scan thread calls it between scans. */
public interface Switch {
  void act(long[] cells);
}
