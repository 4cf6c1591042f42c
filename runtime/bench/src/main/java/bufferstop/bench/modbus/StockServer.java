package bufferstop.bench.modbus;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;

/** The server that comes with j2mod, as it is; its logging at WARN. */
public final class StockServer {
  private static final int POOL = 80; // clients beyond it would wait without an answer

  private StockServer() {}

  /** Prints the port it listens on and serves until it is ended. */
  public static void main(String[] args) throws ModbusException, IOException {
    int port = freePort(); // it has no way to ask the system for one
    InetAddress loopback = InetAddress.getLoopbackAddress();
    ModbusSlave slave = ModbusSlaveFactory.createTCPSlave(loopback, port, POOL, false);
    SimpleProcessImage image = new SimpleProcessImage(1);
    for (int i = 0; i < 2000; i++) {
      image.addDigitalOut(new SimpleDigitalOut(i % 3 == 0));
    }
    for (int i = 0; i < 125; i++) {
      image.addRegister(new SimpleRegister(i));
    }
    slave.addProcessImage(1, image);
    slave.open();
    System.out.println(port);
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }
}
