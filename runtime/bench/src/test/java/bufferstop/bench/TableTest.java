package bufferstop.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;

class TableTest {
  private static final List<Row> ROWS =
      List.of(new Row("scan", 3, "us", "by hand", 2), Row.alone("p99", 1234.5, "us"));

  @Test
  void aRowShowsItsRatio() {
    String[] lines = Table.text(ROWS).split("\n");
    assertTrue(lines[1].matches("scan +3\\.000 us +by hand +2\\.000 +1\\.50"), lines[1]);
    assertTrue(lines[2].matches("p99 +1,235 us"), lines[2]);
  }

  @Test
  void jsonHasTheContractsKeys() throws IOException {
    String json = Table.json(ROWS).replaceAll("\\s+", "");
    assertEquals(
        "[{\"name\":\"scan\",\"value\":3.0,\"unit\":\"us\",\"baseline_name\":\"byhand\","
            + "\"baseline\":2.0,\"ratio\":1.5},{\"name\":\"p99\",\"value\":1234.5,\"unit\":\"us\","
            + "\"baseline_name\":\"\",\"baseline\":0.0,\"ratio\":null}]",
        json);
  }

  @Test
  void anUnknownNameIsWrongUsage() throws Exception {
    assertEquals(2, Bench.run(java.nio.file.Path.of("."), "nothing"));
  }
}
