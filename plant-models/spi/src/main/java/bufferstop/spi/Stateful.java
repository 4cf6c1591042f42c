package bufferstop.spi;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Whose whole state can be written down and taken up again: a plant, and the parts it is made of.
 */
public interface Stateful {

  /**
   * Writes the whole state, so that {@link #restore} on something made from the same settings goes
   * on bit for bit.
   */
  void save(DataOutput to) throws IOException;

  /** Reads what {@link #save} wrote; afterwards it is as it was at that moment. */
  void restore(DataInput from) throws IOException;
}
