package bufferstop.modbus;

import com.ghgande.j2mod.modbus.ModbusIOException;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import java.io.IOException;
import java.net.Socket;

/** One client: requests are answered in order of arrival, one at a time. */
final class Connection implements Runnable {
  private final Socket socket;
  private final Dispatch dispatch;
  private final Complaints complaints;
  private volatile boolean answering;
  private volatile long lastNanos = System.nanoTime(); // when the last answer was ready

  Connection(Socket socket, Dispatch dispatch, Complaints complaints) throws IOException {
    this.socket = socket;
    this.dispatch = dispatch;
    this.complaints = complaints;
    socket.setTcpNoDelay(true);
    socket.setKeepAlive(true);
  }

  @Override
  public void run() {
    try {
      RequestTransport transport = new RequestTransport(socket);
      while (true) {
        ModbusRequest request = transport.readRequest(null);
        answering = true;
        ModbusResponse response = dispatch.answer(request);
        lastNanos = System.nanoTime();
        answering = false; // before writing: a client that does not read grows old like an idle one
        transport.writeResponse(response);
      }
    } catch (RequestTransport.NotModbus e) {
      String peer = socket.getInetAddress().getHostAddress() + ":" + socket.getPort();
      complaints.add(Complaints.Kind.STREAM, "closed the connection of " + peer, e);
    } catch (ModbusIOException | IOException | IllegalStateException e) {
      // the client has left, or the server closes: nobody is there to be told
    } finally {
      close();
    }
  }

  boolean isAnswering() {
    return answering;
  }

  long lastNanos() {
    return lastNanos;
  }

  boolean isClosed() {
    return socket.isClosed();
  }

  /** Ends the thread too, whether it reads or writes. */
  void close() {
    try {
      socket.close();
    } catch (IOException e) {
      // a socket that cannot be closed has nothing left to lose
    }
  }
}
