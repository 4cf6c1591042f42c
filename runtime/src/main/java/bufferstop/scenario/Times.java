package bufferstop.scenario;

import java.util.Arrays;

/** Moments in their order, first in, first out; grows to what it must hold at one time. */
final class Times {
  private long[] times = new long[16]; // a power of two
  private int first;
  private int count;

  void add(long micros) {
    if (count == times.length) {
      long[] more = new long[2 * count];
      for (int i = 0; i < count; i++) {
        more[i] = get(i);
      }
      times = more;
      first = 0;
    }
    times[first + count & times.length - 1] = micros;
    count++;
  }

  boolean isEmpty() {
    return count == 0;
  }

  int size() {
    return count;
  }

  private long get(int i) {
    return times[first + i & times.length - 1];
  }

  long first() {
    return get(0);
  }

  long last() {
    return get(count - 1);
  }

  long removeFirst() {
    long micros = get(0);
    first = first + 1 & times.length - 1;
    count--;
    return micros;
  }

  void removeLast() {
    count--;
  }

  @Override
  public String toString() {
    long[] all = new long[count];
    for (int i = 0; i < count; i++) {
      all[i] = get(i);
    }
    return Arrays.toString(all);
  }
}
