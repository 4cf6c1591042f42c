package bufferstop.modbus;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** A server on a bench that scans every millisecond on a thread of its own. */
final class RunningBench implements AutoCloseable {
  final Bench bench;
  final ModbusServer server;
  private final RunningScans scans;
  private final List<Client> clients = new ArrayList<>();

  RunningBench(Bench bench, ModbusServer.Limits limits) throws IOException {
    this.bench = bench;
    server = bench.server(limits);
    server.start();
    scans = new RunningScans(bench).begin();
  }

  RunningBench(Bench bench) throws IOException {
    this(bench, ModbusServer.Limits.STANDARD);
  }

  /** A new client, closed with the bench. */
  Client client() throws IOException {
    Client client = new Client(server.port());
    clients.add(client);
    return client;
  }

  @Override
  public void close() throws IOException {
    for (Client client : clients) {
      client.close();
    }
    server.close();
    scans.close();
  }
}
