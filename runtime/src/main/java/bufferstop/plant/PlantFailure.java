package bufferstop.plant;

/** A plant gave no usable value; the run cannot go on. The message is for the user. */
public final class PlantFailure extends RuntimeException {
  public PlantFailure(String message, Throwable cause) {
    super(message, cause);
  }
}
