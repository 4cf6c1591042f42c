package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class NetworkTest {

  @Test
  void aPrefixDecidesBitByBit() {
    byte[] lan = {(byte) 192, (byte) 168, 4, 0};
    Network network = new Network("192.168.4.0/22", lan, 22);
    assertTrue(network.contains(new byte[] {(byte) 192, (byte) 168, 7, (byte) 255}));
    assertFalse(network.contains(new byte[] {(byte) 192, (byte) 168, 8, 0}));
  }

  @Test
  void anAddressOfTheOtherVersionIsNeverInIt() {
    assertTrue(Network.ALL_V6.contains(new byte[16]));
    assertFalse(Network.ALL_V6.contains(new byte[4]));
    assertFalse(Network.ALL_V4.contains(new byte[16]));
  }
}
