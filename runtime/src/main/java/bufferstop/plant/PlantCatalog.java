package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Form;
import bufferstop.model.Position;
import bufferstop.spi.PlantModel;
import java.io.IOException;
import java.net.MalformedURLException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.ServiceConfigurationError;
import java.util.ServiceLoader;
import java.util.TreeMap;

/** The plant models at hand: those on the class path and those in folders the user named. */
public final class PlantCatalog {
  private final Map<String, PlantModel> byName = new TreeMap<>();
  private final List<Diagnostic> problems = new ArrayList<>();

  private PlantCatalog() {}

  /** Finds every model; folders that hold none, and models that cannot be loaded, are reported. */
  public static PlantCatalog find(List<Path> folders, Diagnostics problems) {
    PlantCatalog catalog = new PlantCatalog();
    catalog.takeAll(PlantCatalog.class.getClassLoader(), "the class path");
    for (Path folder : folders) {
      catalog.takeFolder(folder);
    }
    catalog.problems.forEach(problems::add);
    return catalog;
  }

  /** A catalogue of these models and no others. */
  public static PlantCatalog of(PlantModel... models) {
    PlantCatalog catalog = new PlantCatalog();
    for (PlantModel model : models) {
      catalog.byName.put(model.name(), model);
    }
    return catalog;
  }

  /** The model of that name, or null. */
  public PlantModel named(String name) {
    return byName.get(name);
  }

  /** What the settings of that model, which is there, may hold. */
  public Form settings(String name) {
    return SettingsForm.of(name, byName.get(name).schema());
  }

  public Collection<String> names() {
    return byName.keySet();
  }

  private void takeFolder(Path folder) {
    List<URL> jars = new ArrayList<>();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.jar")) {
      List<Path> sorted = new ArrayList<>();
      files.forEach(sorted::add);
      sorted.sort(Comparator.naturalOrder());
      for (Path jar : sorted) {
        jars.add(jar.toUri().toURL());
      }
    } catch (MalformedURLException e) {
      throw new IllegalStateException(e); // a path of this file system always makes a URL
    } catch (IOException | DirectoryIteratorException e) {
      report(folder, "no folder with plant models at `" + folder + "`");
      return;
    }
    if (jars.isEmpty()) {
      report(folder, "no jar in `" + folder + "`");
      return;
    }
    // lives as long as the process: plants load classes from it while they run
    @SuppressWarnings("resource")
    URLClassLoader loader =
        new URLClassLoader(jars.toArray(URL[]::new), PlantCatalog.class.getClassLoader());
    takeAll(loader, folder.toString());
  }

  private void takeAll(ClassLoader loader, String where) {
    var providers = ServiceLoader.load(PlantModel.class, loader).stream().iterator();
    while (true) {
      try {
        if (!providers.hasNext()) {
          return;
        }
        take(providers.next().get(), where);
      } catch (ServiceConfigurationError | LinkageError | RuntimeException e) {
        report(Path.of(where), "a plant model cannot be loaded: " + e.getMessage());
      }
    }
  }

  private void take(PlantModel model, String where) {
    if (model.name() == null) {
      report(Path.of(where), "plant model " + model.getClass().getName() + " has no name");
      return;
    }
    PlantModel first = byName.putIfAbsent(model.name(), model);
    if (first != null && first.getClass() != model.getClass()) {
      report(
          Path.of(where),
          "two plant models are called `"
              + model.name()
              + "`: "
              + first.getClass().getName()
              + " and "
              + model.getClass().getName());
    }
  }

  private void report(Path where, String message) {
    problems.add(
        Diagnostic.error(Code.PLANT_MODEL_BROKEN, Position.ofFile(where.toString()), message));
  }
}
