package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;

/**
 * The points that lie in any of several solids. The share outside is the product of all: exact where two surfaces meet at
 * right angles, and away from where they meet. Members should overlap, not touch along a common face.
 *
 * @param members at least one
 */
public record Union(List<Solid> members) implements Solid {

    public Union {
        members = List.copyOf(members);
        if (members.isEmpty()) {
            throw new IllegalArgumentException("a union needs at least one solid");
        }
    }

    /** The union of two solids, flat where they are unions themselves. */
    static Union of(Solid a, Solid b) {
        List<Solid> all = new ArrayList<>();
        for (Solid solid : List.of(a, b)) {
            if (solid instanceof Union union) {
                all.addAll(union.members);
            } else {
                all.add(solid);
            }
        }
        return new Union(all);
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        double nearest = Double.POSITIVE_INFINITY;
        for (int n = 0; n < members.size(); n++) {
            nearest = Math.min(nearest, members.get(n).signedDistanceMm(x, y, z));
        }
        return nearest;
    }

    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double outside = 1;
        for (int n = 0; n < members.size() && outside > 0; n++) {
            outside *= 1 - members.get(n).insideShare(x, y, z, blurMm, insetMm);
        }
        return 1 - outside;
    }

    @Override
    public Solid near(double x, double y, double z, double reachMm) {
        List<Solid> left = new ArrayList<>();
        boolean same = true;
        for (Solid member : members) {
            if (member.signedDistanceMm(x, y, z) <= reachMm) {
                Solid simpler = member.near(x, y, z, reachMm);
                same &= simpler == member;
                left.add(simpler);
            }
        }
        if (left.isEmpty() || same && left.size() == members.size()) {
            return this;
        }
        return left.size() == 1 ? left.get(0) : new Union(left);
    }
}
