package bufferstop.railway;

import bufferstop.railway.LineData.SensorsData;
import bufferstop.railway.TrackData.SegmentData;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** All sensors and relays, and what they look at. */
final class Sensors implements Stateful {
  final List<Beam> beams;
  final List<Reed> reeds;
  final List<Block> blocks = new ArrayList<>();
  final List<Counter> counters;
  final List<Scale> scales;
  final List<Armature> relays;
  private final Magnets magnets;
  private final Axles axles;
  private final List<Stateful> parts = new ArrayList<>(); // in the order they are saved in
  private long nowMicros;

  Sensors(LineData line, Stock stock, Occupancy occupancy, List<Feed> feeds, RandomStream random) {
    SensorsData data = line.sensors();
    magnets = new Magnets(stock);
    reeds = Line.all(data.reeds(), r -> new Reed(r, magnets, random.nextLong()));
    beams = Line.all(data.beams(), b -> new Beam(b, occupancy, random.nextLong()));
    counters = Line.all(data.counters(), c -> new Counter(c, random.nextLong()));
    axles = new Axles(stock, data.blocks().size(), counters);
    for (int n = 0; n < data.blocks().size(); n++) {
      Feed feed = feedOf(line, n, feeds);
      blocks.add(new Block(data.blocks().get(n), n, axles, feed, random.nextLong()));
    }
    scales = Line.all(data.scales(), s -> new Scale(s, stock, occupancy, random.nextLong()));
    relays =
        Line.all(
            data.relays(),
            r ->
                new Armature(
                    r.operateMicros(), r.releaseMicros(), r.bounceMicros(), random.nextLong()));
    parts.add(axles);
    parts.addAll(beams);
    parts.addAll(reeds);
    parts.addAll(blocks);
    parts.addAll(counters);
    parts.addAll(scales);
    parts.addAll(relays);
  }

  /** The feed of the first segment of a block, or null. */
  private static Feed feedOf(LineData line, int block, List<Feed> feeds) {
    for (SegmentData segment : line.track().segments()) {
      if (segment.block() == block && segment.feed() >= 0) {
        return feeds.get(segment.feed());
      }
    }
    return null;
  }

  void start() {
    magnets.take();
    axles.start();
    beams.forEach(Beam::start);
    reeds.forEach(Reed::start);
    blocks.forEach(Block::start);
    scales.forEach(Scale::start);
    relays.forEach(r -> r.start(false));
  }

  /** After somebody moved. */
  void look() {
    magnets.take();
  }

  void step(long stepMicros, long nowMicros) {
    this.nowMicros = nowMicros;
    axles.step(nowMicros);
    for (int n = 0; n < beams.size(); n++) {
      beams.get(n).step(stepMicros, nowMicros);
    }
    for (int n = 0; n < reeds.size(); n++) {
      reeds.get(n).step(stepMicros, nowMicros);
    }
    for (int n = 0; n < blocks.size(); n++) {
      blocks.get(n).step(stepMicros, nowMicros);
    }
    for (int n = 0; n < scales.size(); n++) {
      scales.get(n).step(stepMicros, nowMicros);
    }
  }

  boolean pulse(Counter counter) {
    return counter.pulse(nowMicros);
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeLong(nowMicros);
    for (Stateful part : parts) {
      part.save(to);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    nowMicros = from.readLong();
    for (Stateful part : parts) {
      part.restore(from);
    }
    magnets.take();
  }
}
