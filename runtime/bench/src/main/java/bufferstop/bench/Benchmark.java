package bufferstop.bench;

import java.nio.file.Path;
import java.util.List;

/** One benchmark of {@code scripts/bench}. */
public interface Benchmark {

  /**
   * Measures the product and its baseline in the same run.
   *
   * @param top the checkout
   * @param brief a short run that shows that it works; its figures are worth little
   */
  List<Row> run(Path top, boolean brief) throws Exception;
}
