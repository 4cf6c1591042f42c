package bufferstop.modbus;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;

/** The printed examples, through a server and a scan that runs. */
class WorkedExamplesOverSocketsTest extends WorkedExamples {
  private final List<RunningBench> running = new ArrayList<>();

  @Override
  Answering serve(Bench bench) throws Exception {
    RunningBench started = new RunningBench(bench);
    running.add(started);
    return started.client();
  }

  @AfterEach
  void close() throws Exception {
    for (RunningBench each : running) {
      each.close();
    }
  }
}
