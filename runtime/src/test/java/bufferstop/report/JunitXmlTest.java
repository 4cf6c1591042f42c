package bufferstop.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** Source of the form: Windy Road, JUnit test result schema, 2011 [re-read]. */
class JunitXmlTest {
  private static final String ODD = "<a> & \"b\" 'c' \u0007\u001B \uD83D\uDE82 ]]>";

  @TempDir Path folder;

  private Document written(String project, ScenarioResult... results) throws Exception {
    Path file = folder.resolve("junit.xml");
    JunitXml.write(file, Results.project(project), List.of(results));
    return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(file.toFile());
  }

  private static Element first(Document document, String tag) {
    return (Element) document.getElementsByTagName(tag).item(0);
  }

  private static int count(Document document, String tag) {
    return document.getElementsByTagName(tag).getLength();
  }

  private static List<String> children(Element element) {
    List<String> names = new ArrayList<>();
    NodeList nodes = element.getChildNodes();
    for (int i = 0; i < nodes.getLength(); i++) {
      if (nodes.item(i) instanceof Element child) {
        names.add(child.getTagName());
      }
    }
    return names;
  }

  private Document three() throws Exception {
    return written(
        "Gravel",
        Results.scenario("a", "a.yaml", 1, Verdict.PASSED),
        Results.scenario(
            "b",
            "b.yaml",
            1,
            Verdict.FAILED,
            Results.expectation("never x", Verdict.FAILED, -0.5, 10)),
        Results.scenario("c", "c.yaml", 1, Verdict.INCONCLUSIVE));
  }

  @Test
  void attributesAndElementsCountTheSame() throws Exception {
    Document document = three();
    Element suite = first(document, "testsuite");
    assertEquals("3", suite.getAttribute("tests"));
    assertEquals(3, count(document, "testcase"));
    assertEquals("1", suite.getAttribute("failures"));
    assertEquals(1, count(document, "failure"));
    assertEquals("1", suite.getAttribute("errors"));
    assertEquals(1, count(document, "error"));
    assertEquals("0", suite.getAttribute("skipped"));
  }

  @Test
  void theSuiteHasWhatTheStrictFormAsksFor() throws Exception {
    Element suite = first(three(), "testsuite");
    assertEquals("Gravel", suite.getAttribute("name"));
    assertEquals("0", suite.getAttribute("id"));
    assertEquals("bufferstop", suite.getAttribute("package"));
    assertEquals("localhost", suite.getAttribute("hostname"));
    assertTrue(
        suite.getAttribute("timestamp").matches("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d"));
    assertEquals(
        List.of("properties", "testcase", "testcase", "testcase", "system-out", "system-err"),
        children(suite));
  }

  @Test
  void timesOfTheCasesAddUpToTheSuitesAtMost() throws Exception {
    Document document = three();
    double sum = 0;
    for (int i = 0; i < 3; i++) {
      Element testCase = (Element) document.getElementsByTagName("testcase").item(i);
      sum += Double.parseDouble(testCase.getAttribute("time"));
    }
    double suite = Double.parseDouble(first(document, "testsuite").getAttribute("time"));
    assertEquals(suite, sum, 0.002);
  }

  @Test
  void aFailureSaysWhatFailedAndWhy() throws Exception {
    Element failure = first(three(), "failure");
    assertEquals("failed", failure.getAttribute("type"));
    assertEquals("never x: it came true at T#1s", failure.getAttribute("message"));
    assertTrue(failure.getTextContent().contains("margin -0.5 m"), failure.getTextContent());
    Element error = first(three(), "error");
    assertEquals("inconclusive", error.getAttribute("type"));
    assertEquals("the trigger never came", error.getAttribute("message"));
  }

  @Test
  void markupAndForbiddenCharactersStayText() throws Exception {
    String kept = ODD.replaceAll("\\p{Cntrl}", "");
    Document document =
        written(
            ODD,
            Results.scenario(
                ODD, ODD, 1, Verdict.FAILED, Results.expectation(ODD, Verdict.FAILED, null, 1)));
    assertEquals(kept, first(document, "testsuite").getAttribute("name"));
    assertEquals(kept, first(document, "testcase").getAttribute("name"));
    assertTrue(first(document, "failure").getAttribute("message").startsWith(kept));
    assertTrue(first(document, "failure").getTextContent().contains(kept));
  }

  @Test
  void twoScenariosOfOneNameAreToldApart() throws Exception {
    Document document =
        written(
            "p",
            Results.scenario("same", "a.yaml", 1, Verdict.PASSED),
            Results.scenario("same", "b.yaml", 1, Verdict.PASSED));
    NodeList cases = document.getElementsByTagName("testcase");
    assertEquals("same", ((Element) cases.item(0)).getAttribute("name"));
    assertEquals("same (b.yaml)", ((Element) cases.item(1)).getAttribute("name"));
  }

  @Test
  void noScenarioIsAnEmptySuite() throws Exception {
    Document document = written("p");
    assertEquals("0", first(document, "testsuite").getAttribute("tests"));
    assertEquals(0, count(document, "testcase"));
  }
}
