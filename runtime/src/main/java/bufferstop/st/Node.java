package bufferstop.st;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A part of a typed tree. It can be run as it stands, which is slow and obvious, and it can be put
 * out as bytecode. HotSpot leaves methods above 8,000 bytes to its interpreter, so a tree is first
 * fitted: parts get methods of their own until none is too long.
 */
abstract class Node {
  /** Most bytes that are put into one method. */
  static final int ROOM = 3_000;

  /** Most bytes of a call to a method of its own, with what is done about its result. */
  private static final int CALL = 48;

  private int bytes; // without the parts that have methods of their own
  private int allBytes; // with them
  private boolean apart;
  private boolean fitted;

  /** What it is made of, in the order of evaluation. */
  abstract List<? extends Node> parts();

  /** An upper bound for its bytecode besides that of its parts. */
  abstract int ownBytes();

  /** Puts out its bytecode: an expression leaves its value on the stack, a statement nothing. */
  abstract void emit(Code code);

  /** Decides which parts get methods of their own; once. */
  final void fit() {
    if (fitted) {
      return;
    }
    fitted = true;
    allBytes = ownBytes();
    for (Node part : parts()) {
      part.fit();
      allBytes += part.allBytes;
    }
    regroup();
    List<? extends Node> parts = parts();
    if (ownBytes() + cost(parts) > ROOM) {
      List<Node> longestFirst = new ArrayList<>(parts);
      longestFirst.sort(Comparator.<Node>comparingInt(Node::cost).reversed());
      for (Node part : longestFirst) {
        if (ownBytes() + cost(parts) > ROOM) {
          part.standApart();
        }
      }
    }
    bytes = ownBytes() + cost(parts);
  }

  /** Joins parts that share a method when there are too many for one; they are fitted already. */
  void regroup() {
    // most have few parts
  }

  final void standApart() {
    apart = true;
  }

  final boolean isApart() {
    return apart;
  }

  /** Bytes it adds to the method it is used in. */
  final int cost() {
    return apart ? CALL : bytes;
  }

  static int cost(List<? extends Node> parts) {
    return parts.stream().mapToInt(Node::cost).sum();
  }

  /** Bytes of the whole tree, in however many methods. */
  final int allBytes() {
    return allBytes;
  }
}
