package bufferstop.modbus;

/** The printed examples, frame by frame, without sockets. */
class WorkedExamplesTest extends WorkedExamples {

  @Override
  Answering serve(Bench bench) {
    return bench.frames();
  }
}
