package bufferstop.st;

/**
 * x to the power y, the same bits as {@link StrictMath#pow} on every machine, without the arrays
 * that it allocates. The algorithm is that of fdlibm's e_pow.c, whose notice is kept here:
 *
 * <pre>
 * Copyright (C) 2004 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this
 * software is freely granted, provided that this notice
 * is preserved.
 * </pre>
 */
final class Power {
  private static final double TWO_53 = 0x1p53;
  private static final double DP_H = 0x1.2b80340000000p-1;
  private static final double DP_L = 0x1.cfdeb43cfd006p-27;
  private static final double LG2 = 0x1.62e42fefa39efp-1;
  private static final double LG2_H = 0x1.62e43p-1;
  private static final double LG2_L = -0x1.05c610ca86c39p-29;
  private static final double OVT = 8.0085662595372944372e-17; // -(1024 - log2(overflow + ulp / 2))
  private static final double CP = 0x1.ec709dc3a03fdp-1; // 2 / (3 ln 2)
  private static final double CP_H = 0x1.ec709ep-1;
  private static final double CP_L = -0x1.e2fe0145b01f5p-28;
  private static final double IVLN2 = 0x1.71547652b82fep0; // 1 / ln 2
  private static final double IVLN2_H = 0x1.715476p0;
  private static final double IVLN2_L = 0x1.4ae0bf85ddf44p-26;

  private Power() {}

  /** x to the power y. */
  static double of(double x, double y) {
    if (y == 0) {
      return 1;
    }
    if (Double.isNaN(x) || Double.isNaN(y)) {
      return x + y;
    }
    double magnitude = Math.abs(x);
    int parity = x < 0 ? parity(y) : 0; // 0: y no integer, 1: odd, 2: even
    if (Double.isInfinite(y)) {
      return ofInfinite(magnitude, y);
    }
    if (y == 1) {
      return x;
    }
    if (y == -1) {
      return 1 / x;
    }
    if (y == 2) {
      return x * x;
    }
    if (y == 0.5 && x >= 0 && !Double.isInfinite(x)) {
      return StrictMath.sqrt(x + 0.0);
    }
    if (magnitude == 0 || Double.isInfinite(magnitude) || magnitude == 1) {
      return ofSpecial(x, y, magnitude, parityOf(x, y));
    }
    if (x < 0 && parity == 0) {
      return Double.NaN;
    }
    return ofFinite(magnitude, y, x < 0 && parity == 1 ? -1 : 1);
  }

  private static int parityOf(double x, double y) {
    return Double.doubleToRawLongBits(x) < 0 ? parity(y) : 0;
  }

  private static int parity(double y) {
    double size = Math.abs(y);
    if (size >= TWO_53) {
      return 2;
    }
    if (size < 1 || size != (long) size) {
      return 0;
    }
    return 2 - (int) ((long) size & 1);
  }

  private static double ofInfinite(double magnitude, double y) {
    if (magnitude == 1) {
      return Double.NaN; // as Java has it; 1 in C
    }
    return magnitude > 1 == y > 0 ? Double.POSITIVE_INFINITY : 0;
  }

  /** Of 0, 1 or infinity, with either sign. */
  private static double ofSpecial(double x, double y, double magnitude, int parity) {
    double size = y < 0 ? 1 / magnitude : magnitude;
    if (Double.doubleToRawLongBits(x) >= 0) {
      return size;
    }
    if (magnitude == 1 && parity == 0) {
      return Double.NaN;
    }
    return parity == 1 ? -size : size;
  }

  private static double ofFinite(double magnitude, double y, double sign) {
    double t1;
    double t2;
    if (Math.abs(y) > 0x1p31) {
      if (magnitude < 0x1.fffff00000000p-1 && isBelow(magnitude)) {
        return y < 0 ? sign * Double.POSITIVE_INFINITY : sign * 0.0;
      }
      if (isAbove(magnitude)) {
        return y > 0 ? sign * Double.POSITIVE_INFINITY : sign * 0.0;
      }
      // |1 - x| is at most 2^-20: log(x) by x - x^2 / 2 + x^3 / 3 - x^4 / 4
      double t = magnitude - 1;
      double w = t * t * (0.5 - t * (0.3333333333333333333333 - t * 0.25));
      double u = IVLN2_H * t;
      double v = t * IVLN2_L - w * IVLN2;
      t1 = withoutLow(u + v);
      t2 = v - (t1 - u);
      return scaled(y, t1, t2, sign);
    }
    return byLogarithm(magnitude, y, sign);
  }

  private static boolean isBelow(double x) {
    return high(x) < 0x3fefffff;
  }

  private static boolean isAbove(double x) {
    return high(x) > 0x3ff00000;
  }

  private static double byLogarithm(double magnitude, double y, double sign) {
    double x = magnitude;
    int n = 0;
    int ix = high(x);
    if (ix < 0x00100000) { // subnormal
      x *= TWO_53;
      n -= 53;
      ix = high(x);
    }
    n += (ix >> 20) - 0x3ff;
    int j = ix & 0x000fffff;
    ix = j | 0x3ff00000;
    boolean second = false; // of the two intervals around 1 and 1.5
    if (j > 0x3988E) {
      if (j < 0xBB67A) {
        second = true;
      } else {
        n++;
        ix -= 0x00100000;
      }
    }
    x = withHigh(x, ix);
    double bp = second ? 1.5 : 1;

    // ss = s_h + s_l = (x - 1) / (x + 1) or (x - 1.5) / (x + 1.5)
    double u = x - bp;
    double v = 1 / (x + bp);
    double ss = u * v;
    double sh = withoutLow(ss);
    double th = withHigh(0, (ix >> 1 | 0x20000000) + 0x00080000 + (second ? 0x00040000 : 0));
    double tl = x - (th - bp);
    double sl = v * (u - sh * th - sh * tl);

    // log(x)
    double s2 = ss * ss;
    double r = s2 * s2 * logarithm(s2);
    r += sl * (sh + ss);
    s2 = sh * sh;
    th = withoutLow(3 + s2 + r);
    tl = r - (th - 3 - s2);
    u = sh * th;
    v = sl * th + tl * ss;

    // 2 / (3 log 2) (ss + ...)
    double ph = withoutLow(u + v);
    double pl = v - (ph - u);
    double zh = CP_H * ph;
    double zl = CP_L * ph + pl * CP + (second ? DP_L : 0);
    double t = n;
    double dp = second ? DP_H : 0;
    double t1 = withoutLow(zh + zl + dp + t);
    double t2 = zl - (t1 - t - dp - zh);
    return scaled(y, t1, t2, sign);
  }

  private static double logarithm(double s2) {
    return 0x1.3333333333303p-1
        + s2
            * (0x1.b6db6db6fabffp-2
                + s2
                    * (0x1.55555518f264dp-2
                        + s2
                            * (0x1.17460a91d4101p-2
                                + s2 * (0x1.d864a93c9db65p-3 + s2 * 0x1.a7e284a454eefp-3))));
  }

  /** 2 to the power y (t1 + t2). */
  private static double scaled(double y, double t1, double t2, double sign) {
    double y1 = withoutLow(y);
    double pl = (y - y1) * t1 + y * t2;
    double ph = y1 * t1;
    double z = pl + ph;
    int j = high(z);
    int low = (int) Double.doubleToRawLongBits(z);
    if (j >= 0x40900000) { // z >= 1024
      if ((j - 0x40900000 | low) != 0 || pl + OVT > z - ph) {
        return sign * Double.POSITIVE_INFINITY;
      }
    } else if ((j & 0x7fffffff) >= 0x4090cc00) { // z <= -1075
      if ((j - 0xc090cc00 | low) != 0 || pl <= z - ph) {
        return sign * 0.0;
      }
    }
    return sign * twoToThe(j, ph, pl);
  }

  private static double twoToThe(int highOfZ, double high, double pl) {
    double ph = high;
    int j = highOfZ;
    int i = j & 0x7fffffff;
    int k = (i >> 20) - 0x3ff;
    int n = 0;
    if (i > 0x3fe00000) { // |z| > 0.5: n is z to the nearest integer
      n = j + (0x00100000 >> k + 1);
      k = ((n & 0x7fffffff) >> 20) - 0x3ff;
      double t = withHigh(0, n & ~(0x000fffff >> k));
      n = (n & 0x000fffff | 0x00100000) >> 20 - k;
      if (j < 0) {
        n = -n;
      }
      ph -= t;
    }
    double t = withoutLow(pl + ph);
    double u = t * LG2_H;
    double v = (pl - (t - ph)) * LG2 + t * LG2_L;
    double z = u + v;
    double w = v - (z - u);
    t = z * z;
    double t1 = z - t * exponential(t);
    double r = z * t1 / (t1 - 2) - (w + z * w);
    z = 1 - (r - z);
    j = high(z) + (n << 20);
    return j >> 20 <= 0 ? Math.scalb(z, n) : withHigh(z, high(z) + (n << 20));
  }

  private static double exponential(double t) {
    return 0x1.555555555553ep-3
        + t
            * (-0x1.6c16c16bebd93p-9
                + t
                    * (0x1.1566aaf25de2cp-14
                        + t * (-0x1.bbd41c5d26bf1p-20 + t * 0x1.6376972bea4d0p-25)));
  }

  private static int high(double x) {
    return (int) (Double.doubleToRawLongBits(x) >>> 32);
  }

  private static double withHigh(double x, int high) {
    return Double.longBitsToDouble(
        Double.doubleToRawLongBits(x) & 0xffff_ffffL | (long) high << 32);
  }

  private static double withoutLow(double x) {
    return Double.longBitsToDouble(Double.doubleToRawLongBits(x) & 0xffff_ffff_0000_0000L);
  }
}
