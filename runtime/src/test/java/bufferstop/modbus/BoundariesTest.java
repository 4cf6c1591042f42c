package bufferstop.modbus;

/** The limits, frame by frame, without sockets. */
class BoundariesTest extends Boundaries {

  @Override
  Answering serve(Bench bench) {
    return bench.frames();
  }
}
