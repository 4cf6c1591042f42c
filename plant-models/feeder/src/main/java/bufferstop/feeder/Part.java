package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * One part of a feeder with its ports. Its calls in a step: before, then after, on a solved
 * network.
 */
interface Part {

  /** Takes its commands, moves on what moves by itself, switches. */
  default void before(double[] in) {}

  /** Looks at the network as it is in this step, and writes its outputs. */
  void after();

  /** Writes its outputs at time zero. */
  void show();

  /** Nothing in it will move while commands and network stay as they are. */
  boolean idle();

  void save(DataOutput to) throws IOException;

  void restore(DataInput from) throws IOException;
}
