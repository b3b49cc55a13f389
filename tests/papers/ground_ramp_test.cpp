// Lightness of the ramps: OKLab (Ottosson 2020) against values he publishes, and how the colours
// look to eyes that lack one kind of cone.
#include "app/papers/ground_ramp.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

double linear(double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); }
double gamma_of(double c) {
    return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1.0 / 2.4) - 0.055;
}

using Matrix = std::array<std::array<double, 3>, 3>;
// Machado, Oliveira and Fernandes 2009, severity 1.0, on linear RGB: protan, deutan, tritan.
constexpr std::array<Matrix, 3> kLacking{{{{{0.152286, 1.052583, -0.204868},
                                            {0.114503, 0.786281, 0.099216},
                                            {-0.003882, -0.048116, 1.051998}}},
                                          {{{0.367322, 0.860646, -0.227968},
                                            {0.280085, 0.672501, 0.047413},
                                            {-0.011820, 0.042940, 0.968881}}},
                                          {{{1.255528, -0.076749, -0.178779},
                                            {-0.078411, 0.930809, 0.147602},
                                            {0.004733, 0.691367, 0.303900}}}}};

QColor seen_by(const Matrix& eye, const QColor& color) {
    const std::array<double, 3> rgb{linear(static_cast<double>(color.redF())),
                                    linear(static_cast<double>(color.greenF())),
                                    linear(static_cast<double>(color.blueF()))};
    std::array<float, 3> out{};
    for (std::size_t i = 0; i < 3; ++i) {
        double sum = 0.0;
        for (std::size_t j = 0; j < 3; ++j) sum += eye[i][j] * rgb[j];
        out[i] = static_cast<float>(gamma_of(std::clamp(sum, 0.0, 1.0)));
    }
    return QColor::fromRgbF(out[0], out[1], out[2]);
}

// Ottosson 2020: white has L 1, a and b 0; pure red L 0.628, a 0.225, b 0.126.
TEST(GroundRamp, KnowsOklab) {
    EXPECT_NEAR(oklab_of(Qt::white).l, 1.0, 1e-4);
    EXPECT_NEAR(oklab_of(Qt::white).a, 0.0, 1e-4);
    EXPECT_NEAR(oklab_of(Qt::black).l, 0.0, 1e-6);
    EXPECT_NEAR(oklab_of(Qt::red).l, 0.628, 1e-3);
    EXPECT_NEAR(oklab_of(Qt::red).a, 0.225, 1e-3);
    EXPECT_NEAR(oklab_of(Qt::red).b, 0.126, 1e-3);
    const QColor back = color_of(oklab_of(QColor(120, 60, 200)));
    EXPECT_NEAR(back.red(), 120, 1);
    EXPECT_NEAR(back.green(), 60, 1);
    EXPECT_NEAR(back.blue(), 200, 1);
}

TEST(GroundRamp, LightnessFallsEvenlyForAllEyes) {
    for (const bool change : {false, true}) {
        const auto at = [&](double share) {
            return change ? change_color(2.0 * share - 1.0) : load_color(share);
        };
        const auto falls = [&](const auto& look, double least_fall) {
            double before = oklab_of(look(at(0.0))).l;
            for (int i = 1; i <= 9; ++i) {
                const double now = oklab_of(look(at(i / 9.0))).l;
                EXPECT_LT(now, before - least_fall) << i;
                before = now;
            }
        };
        falls([](const QColor& c) { return c; }, 0.04);
        for (const Matrix& eye : kLacking)
            falls([&](const QColor& c) { return seen_by(eye, c); }, 0.02);
    }
}

// Grey by Rec. 709 luminance, as a black and white printer takes it: neighbouring steps differ by
// at least 4 of 100 in lightness.
TEST(GroundRamp, StepsAreToldApartInBlackAndWhite) {
    const auto grey = [](const QColor& c) {
        const double y = 0.2126 * linear(static_cast<double>(c.redF())) +
                         0.7152 * linear(static_cast<double>(c.greenF())) +
                         0.0722 * linear(static_cast<double>(c.blueF()));
        return 116.0 * std::cbrt(y) - 16.0;  // CIE 1976 L*
    };
    for (int step = 1; step <= static_cast<int>(kLoadSteps.size()); ++step)
        EXPECT_GT(grey(step_color(step - 1)) - grey(step_color(step)), 4.0) << step;
}

TEST(GroundRamp, StepsHaveTheirLabels) {
    EXPECT_EQ(load_step(0.0), 0);
    EXPECT_EQ(load_step(1.0), 1);
    EXPECT_EQ(load_step(37.0), 5);
    EXPECT_EQ(load_step(1e6), 9);
    EXPECT_EQ(step_label(0), "under 1");
    EXPECT_EQ(step_label(5), "20 to 50");
    EXPECT_EQ(step_label(9), "over 500");
}

}  // namespace
}  // namespace haylane
