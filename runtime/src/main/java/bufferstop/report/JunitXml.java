package bufferstop.report;

import bufferstop.model.Project;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes {@code junit.xml}, one test case a scenario; failed is a failure, inconclusive an error.
 * Source of the form: Windy Road, JUnit test result schema, 2011 [re-read].
 */
final class JunitXml {
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final double NANOS = 1e9;

  private final XMLStreamWriter xml;

  private JunitXml(XMLStreamWriter xml) {
    this.xml = xml;
  }

  static void write(Path file, Project project, List<ScenarioResult> results) throws IOException {
    try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
      XMLStreamWriter xml = XMLOutputFactory.newFactory().createXMLStreamWriter(out);
      new JunitXml(xml).document(project, results);
      xml.close();
    } catch (XMLStreamException e) {
      throw new IOException(e);
    }
  }

  private void document(Project project, List<ScenarioResult> results) throws XMLStreamException {
    xml.writeStartDocument("UTF-8", "1.0");
    xml.writeStartElement("testsuites");
    xml.writeStartElement("testsuite");
    attribute("id", "0");
    attribute("package", "bufferstop");
    attribute("name", project.name());
    attribute("timestamp", STAMP.format(Instant.now()));
    attribute("hostname", "localhost");
    attribute("tests", Integer.toString(results.size()));
    attribute("failures", count(results, Verdict.FAILED));
    attribute("errors", count(results, Verdict.INCONCLUSIVE));
    attribute("skipped", "0");
    attribute("time", seconds(results.stream().mapToLong(ScenarioResult::wallNanos).sum()));
    xml.writeEmptyElement("properties");
    Set<String> names = new TreeSet<>();
    for (ScenarioResult result : results) {
      testCase(project, result, names);
    }
    xml.writeEmptyElement("system-out");
    xml.writeEmptyElement("system-err");
    xml.writeEndElement();
    xml.writeEndElement();
    xml.writeEndDocument();
  }

  /**
   * Readers tell test cases apart by class name and name, so a second one of a name gets its file.
   */
  private void testCase(Project project, ScenarioResult result, Set<String> names)
      throws XMLStreamException {
    String name = result.scenario().name();
    xml.writeStartElement("testcase");
    attribute("classname", project.name());
    attribute("name", names.add(name) ? name : name + " (" + result.scenario().file() + ")");
    attribute("time", seconds(result.wallNanos()));
    if (result.verdict() != Verdict.PASSED) {
      boolean failed = result.verdict() == Verdict.FAILED;
      xml.writeStartElement(failed ? "failure" : "error");
      attribute("type", result.verdict().word());
      attribute("message", message(result));
      xml.writeCharacters(clean(VerdictText.details(result)));
      xml.writeEndElement();
    }
    xml.writeEndElement();
  }

  private static String message(ScenarioResult result) {
    for (ExpectationResult expectation : result.expectations()) {
      if (expectation.verdict() == result.verdict()) {
        return expectation.text() + ": " + expectation.reason();
      }
    }
    return String.join("; ", result.notes());
  }

  private void attribute(String name, String value) throws XMLStreamException {
    xml.writeAttribute(name, clean(value));
  }

  /** Drops what XML 1.0 forbids. */
  private static String clean(String text) {
    return text.replaceAll(
        "[^\\u0009\\u000A\\u000D\\u0020-\\uD7FF\\uE000-\\uFFFD\\x{10000}-\\x{10FFFF}]", "");
  }

  private static String count(List<ScenarioResult> results, Verdict verdict) {
    return Long.toString(results.stream().filter(r -> r.verdict() == verdict).count());
  }

  private static String seconds(long nanos) {
    return String.format(Locale.ROOT, "%.3f", nanos / NANOS);
  }
}
