package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/** The configuration that is shipped: at debug level the library spells out every frame. */
class LoggingTest {

  @Test
  void theLibraryDoesNotLogFrames() {
    assertFalse(LoggerFactory.getLogger("com.ghgande.j2mod").isDebugEnabled());
    assertFalse(LoggerFactory.getLogger("com.ghgande.j2mod").isInfoEnabled());
  }

  @Test
  void warningsAreShown() {
    assertTrue(LoggerFactory.getLogger("bufferstop.modbus").isWarnEnabled());
  }
}
